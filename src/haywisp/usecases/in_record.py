"""What was heard of a visit's recordings as its narration: put there, and read anew with words that were typed in."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from haywisp.narration.types import OwnWord, Word
from haywisp.record.types import Passage, Recording, StoredNarration
from haywisp.usecases.app import App
from haywisp.usecases.errors import NotFound, Refused
from haywisp.usecases.hearing_own import own_words_kept, said_in
from haywisp.usecases.listening import heard_again, heard_with
from haywisp.usecases.lookup import visit_of
from haywisp.usecases.recordings import recording_of, shelf_of, title_of
from haywisp.usecases.sounding import WORDS, content_of, passage_views, pieces_of, recordings_in, words_from_json
from haywisp.usecases.views import Heard
from haywisp.usecases.views.recordings import Sounds
from haywisp.usecases.visits import take_in

LONGEST_TYPED = 400


def put_in_record(app: App, recording_id: str) -> Heard:
    """The words of a recording in the record of its visit: as its narration, or after what is there from others.

    Where a transcript was given, the recording takes its place. What somebody accepted or corrected stays.
    """
    with app.units() as unit:
        known = recording_of(unit, recording_id)
        if known.state != "heard":
            raise Refused("This recording has not been heard yet, so there are no words to put in the record.")
        stored = unit.narration_of(known.visit_id)
        wanted = recordings_in(stored) | {known.id}
        heard = [one for one in unit.recordings_of(known.visit_id) if one.id in wanted and one.state == "heard"]
        own = own_words_kept(unit)
    return _understood(app, known.visit_id, heard, own, stored)


def read_anew(app: App, visit_id: str) -> Heard:
    """The visit's recordings understood again with the words that were typed in; what was decided on stays."""
    with app.units() as unit:
        stored = unit.narration_of(visit_id)
        wanted = recordings_in(stored)
        heard = [one for one in unit.recordings_of(visit_id) if one.id in wanted]
        own = own_words_kept(unit)
    if {one.id for one in heard} != wanted or not heard:
        raise Refused(
            "Not every recording that this narration was heard from is still kept, so it can't be read anew. Add what "
            "was said as entries by hand."
        )
    return _understood(app, visit_id, heard, own, stored)


def _understood(
    app: App,
    visit_id: str,
    heard: Sequence[Recording],
    own: tuple[OwnWord, ...],
    before: StoredNarration | None,
) -> Heard:
    content = content_of([(one, words_of(app, one.id)) for one in heard])
    now = app.clock()
    name = " and ".join(title_of(one, now) for one in heard[:3]) + (" and more" if len(heard) > 3 else "")
    stored = StoredNarration(app.new_id(), visit_id, name, "json", content, now)
    narration = heard_with(app.listen, app.tables, stored, own)
    stored = replace(stored, format=narration.transcript.format, own_words=said_in(narration, own, app.tables()))
    old = heard_again(app.listen, app.tables, before).transcript.words
    places = same_words(old, narration.transcript.words)
    with app.units() as unit:
        return take_in(app, unit, stored, narration, again=before is not None, places=places)


def words_of(app: App, recording_id: str) -> list[Word]:
    """The words of a recording as they were heard."""
    text = shelf_of(app).read(recording_id, WORDS)
    return words_from_json(json.loads(text)) if text else []


def same_words(old: Sequence[Word], new: Sequence[Word]) -> Mapping[int, int]:
    """Where each word of one narration is in another that has it at the same time."""
    there = {(word.text, round(word.start, 1)): place for place, word in enumerate(new)}
    found = ((place, there.get((word.text, round(word.start, 1)))) for place, word in enumerate(old))
    return {place: other for place, other in found if other is not None}


def sounds(app: App, visit_id: str) -> Sounds:
    """What of a visit's narration can be listened to, and what to listen to again."""
    with app.units() as unit:
        visit_of(unit, visit_id)
        stored = unit.narration_of(visit_id)
        pieces = pieces_of(stored)
        kept = {one.id: one for one in unit.recordings_of(visit_id)} if pieces else {}
        entries = unit.entries_of(visit_id) if pieces else ()
    shelf = app.shelf
    there = {one for one in kept if shelf is not None and shelf.sound(one) is not None}
    views = [
        view for piece in pieces if piece.recording in kept for view in passage_views(piece, kept[piece.recording])
    ]
    said = (
        {(word["text"], word["start"]) for word in json.loads(stored.content)["words"]} if stored and pieces else set()
    )
    waiting = [view for view in views if view.typed and not _is_in(view.start, view.end, view.typed, said)]
    return Sounds(
        pieces=tuple(replace(piece, kept=piece.recording in there) for piece in pieces),
        passages=tuple(views),
        typed_waiting=len(waiting),
        stays=sum(entry.status in {"accepted", "corrected"} for entry in entries),
        goes=sum(entry.status == "proposed" for entry in entries),
    )


def _is_in(start: float, end: float, typed: str, said: set[tuple[str, float]]) -> bool:
    """Whether the words that were typed for a passage are in the narration already."""
    here = [text for text, at in sorted(said, key=lambda one: one[1]) if start - 0.02 <= at <= end]
    return typed.split() == here


def mark_listened(app: App, recording_id: str, number: int, listened: bool = True) -> None:
    """Somebody has listened to a passage, or takes that back."""
    _change(app, recording_id, number, lambda passage: replace(passage, listened=listened))


def type_words(app: App, recording_id: str, number: int, text: str) -> None:
    """What was really said in a passage; it is in the record once the narration is read anew. "" takes it back."""
    typed = " ".join(text.split())
    if len(typed) > LONGEST_TYPED:
        raise Refused(
            f"That is {len(typed)} letters long for one passage; {LONGEST_TYPED} is the most. Nothing was kept."
        )
    _change(app, recording_id, number, lambda passage: replace(passage, typed=typed, listened=True))


def _change(app: App, recording_id: str, number: int, change: Callable[[Passage], Passage]) -> None:
    with app.units() as unit:
        known = unit.recording_to_change(recording_id)
        if known is None or not 0 <= number < len(known.passages):
            raise NotFound(
                "passage", f"{recording_id[:8]}-{number + 1}", "Open the page again: it lists those there are."
            )
        passages = list(known.passages)
        passages[number] = change(passages[number])
        unit.save_recording(replace(known, passages=tuple(passages)))
