"""A narration with something of everything, for the renderers."""

from haywisp.narration.types import (
    Action,
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

HEARD = "after raj down the neck five strokes light bit tight in the brachio sigh off her knead <b>it</b> rest tomorrow"
WORDS = tuple(Word(text, float(n), n + 0.8) for n, text in enumerate(HEARD.split()))
NARRATION = Narration(
    Transcript(WORDS, "vtt", (Problem("cue 4", "times ran backwards and were put in order"),)),
    (
        Bout("effleurage", ("neck",), "left", 0.0, 61.0, 5, "light", Span(0, 8), 0.9),
        Bout("kneading", ("brachiocephalicus", "shoulder"), None, 75.0, 130.0, None, None, Span(16, 18), 0.6),
    ),
    (Finding("brachiocephalicus", "left", "tone", "tight", 66.0, Span(8, 13), 0.9),),
    (Response("sigh", 70.0, Span(13, 16), 0.9),),
    (Action("rest", 140.0, Span(18, 20), 0.9),),
    (
        Question(
            "bout",
            1,
            "side",
            "Which side was kneaded?",
            (Choice("Left", "left"), Choice("Right", "right")),
            75.0,
            Span(16, 18),
        ),
    ),
    (Repair(Span(0, 2), "after raj", "effleurage", 0.9),),
)
EMPTY = Narration(Transcript((), "txt"), (), (), (), (), ())
