"""Strategies and samples that the exchange tests share."""

from hypothesis import strategies as st

from haywisp.narration.types import (
    Action,
    Alert,
    Bout,
    Choice,
    Finding,
    Narration,
    Problem,
    Question,
    Repair,
    Response,
    Span,
    Transcript,
    Word,
)

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
SECONDS = st.integers(0, 7_200_000).map(lambda ms: ms / 1000)
SURE = st.integers(0, 1000).map(lambda thousandths: thousandths / 1000)
SIDE = st.sampled_from(["left", "right", "both", None])
SPAN = st.builds(Span, st.integers(0, 20), st.integers(0, 20))


def several(strategy: st.SearchStrategy[object]) -> st.SearchStrategy[tuple[object, ...]]:
    return st.lists(strategy, max_size=3).map(tuple)


BOUT = st.builds(
    Bout,
    technique=TEXT,
    structures=several(TEXT),
    side=SIDE,
    start=SECONDS,
    end=SECONDS,
    passes=st.none() | st.integers(1, 99),
    pressure=st.sampled_from(["light", "moderate", "firm", None]),
    span=SPAN,
    confidence=SURE,
    spans=several(SPAN),
)
FINDING = st.builds(
    Finding, structure=TEXT, side=SIDE, aspect=TEXT, value=TEXT, time=SECONDS, span=SPAN, confidence=SURE
)
RESPONSE = st.builds(Response, sign=TEXT, time=SECONDS, span=SPAN, confidence=SURE)
ACTION = st.builds(Action, kind=TEXT, time=SECONDS, span=SPAN, confidence=SURE)
ALERT = st.builds(Alert, flag=TEXT, text=TEXT, time=SECONDS, span=SPAN, confidence=SURE)
QUESTION = st.builds(
    Question,
    part=st.sampled_from(["bout", "finding", "response", "action", "flag"]),
    index=st.integers(0, 3),
    field=st.none() | TEXT,
    text=TEXT,
    choices=several(st.builds(Choice, TEXT, TEXT)),
    time=SECONDS,
    span=SPAN,
)
WORD = st.builds(Word, text=TEXT, start=SECONDS, end=SECONDS)
TRANSCRIPT = st.builds(
    Transcript, words=several(WORD), format=TEXT, problems=several(st.builds(Problem, where=TEXT, text=TEXT))
)
NARRATION = st.builds(
    Narration,
    transcript=TRANSCRIPT,
    bouts=several(BOUT),
    findings=several(FINDING),
    responses=several(RESPONSE),
    actions=several(ACTION),
    alerts=several(ALERT),
    questions=several(QUESTION),
    repairs=several(st.builds(Repair, span=SPAN, heard=TEXT, meant=TEXT, confidence=SURE)),
)
