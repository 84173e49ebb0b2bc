"""The transcript cut into pieces, and the time line laid out."""

from dataclasses import replace

from web_practice import a_heard_visit

from haywisp.usecases import App
from haywisp.usecases.said import said
from haywisp.usecases.views import Lane, Timeline, TimelineBar, TimelineMark
from haywisp.web.rendering import minutes, placed, plural, sentence
from haywisp.web.timeline import LEFT, RIGHT, WIDTH, draw
from haywisp.web.words import rows


def test_the_pieces_hold_every_word_once_and_in_order(app: App) -> None:
    view = said(app, a_heard_visit(app))
    pieces = [piece for row in rows(view.lines, view.entries, view.repairs) for piece in row.pieces]
    assert " ".join(piece.text for piece in pieces) == " ".join(word.text for word in view.words)


def test_a_piece_ends_where_an_entry_or_a_repair_does(app: App) -> None:
    view = said(app, a_heard_visit(app))
    pieces = [piece for row in rows(view.lines, view.entries, view.repairs) for piece in row.pieces]
    finding = next(entry for entry in view.entries if entry.sentence == "Poll: tender")
    own = [(piece.text, piece.meant) for piece in pieces if finding.thread in piece.threads]
    assert own == [("the", ""), ("pole", "poll"), ("is tender", "")]


def test_words_of_two_entries_name_both(app: App) -> None:
    view = said(app, a_heard_visit(app))
    both = [replace(entry, first_word=0, last_word=3) for entry in view.entries[:2]]
    (piece, *_) = rows(view.lines, both, ())[0].pieces
    assert piece.threads == (both[0].thread, both[1].thread)


def bar(start: float, end: float, pressure: str | None = "firm") -> TimelineBar:
    return TimelineBar("neck", "t", "", "", "kneading", "left", pressure, start, end, "accepted")


def mark(time_s: float, direction: str = "settling") -> TimelineMark:
    return TimelineMark("m", "Sighed", time_s, "0:00", direction, 1.0, "accepted")


def timeline(*bars: TimelineBar, marks: tuple[TimelineMark, ...] = (), length_s: float = 100.0) -> Timeline:
    return Timeline((Lane("neck", "Neck"),), bars, marks, length_s, ((0.0, "0:00"), (100.0, "1:40")))


def test_a_bout_as_long_as_the_session_fills_the_drawing() -> None:
    (drawn,) = draw(timeline(bar(0, 100))).bars
    assert (drawn.x, drawn.width) == (LEFT, WIDTH - LEFT - RIGHT)


def test_heavier_is_taller_and_a_short_bout_can_still_be_hit() -> None:
    light, firm = draw(timeline(bar(0, 0.1, "light"), bar(50, 60))).bars
    assert light.height < firm.height
    assert light.width >= 5


def test_answers_close_in_time_stand_on_different_rows() -> None:
    first, second = draw(timeline(marks=(mark(10), mark(10.5, "guarding")))).marks
    assert first.points.split(",")[1] != second.points.split(",")[1]


def test_an_empty_session_can_be_drawn() -> None:
    drawing = draw(Timeline((), (), (), 0.0, ()))
    assert (drawing.bars, drawing.marks) == ((), ())
    assert drawing.height > 0


def test_words_for_numbers() -> None:
    assert [minutes(value) for value in (0.5, 1, 1.5, 12)] == ["½ min", "1 min", "1½ min", "12 min"]
    assert [plural(count, "entry", "entries") for count in (0, 1, 2)] == ["0 entries", "1 entry", "2 entries"]
    assert [placed("Neck", side) for side in (None, "left", "both")] == ["neck", "left neck", "neck, both sides"]
    assert [sentence(text) for text in ("", "light at most", "Why?")] == ["", "Light at most.", "Why?"]
