"""Cues of WebVTT and SubRip.

WebVTT: W3C, as MDN sums it up ("WebVTT format"): first line WEBVTT, blank line, [hh:]mm:ss.ttt, CRLF, LF or CR, notes,
styles, names, tags and character references. SubRip has no formal specification: common practice.
"""

import pytest

from haywisp.narration.cues import Cue, clock_seconds, in_order, plain, read_cues, spread

ONE = Cue(1.0, 2.5, "the neck", 3)


def test_hours_are_optional() -> None:
    cues, problems = read_cues("WEBVTT\n\n00:01.000 --> 00:02.500\nthe neck\n\n01:00:00.250 --> 01:00:01.000\nsoft\n")
    assert cues == [ONE, Cue(3600.25, 3601.0, "soft", 6)]
    assert problems == []


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_every_line_ending_is_read(ending: str) -> None:
    lines = ["WEBVTT", "", "00:01.000 --> 00:02.500", "the", "neck", "", "00:03.000 --> 00:04.000", "soft"]
    cues, _ = read_cues(ending.join(lines))
    assert [(cue.text, cue.line) for cue in cues] == [("the neck", 3), ("soft", 7)]


def test_headers_notes_styles_regions_names_and_settings_are_passed_over() -> None:
    text = (
        "WEBVTT - a title\nKind: captions\nLanguage: en\n\nSTYLE\n::cue { color: lime }\n\nREGION\nid:fred\n\n"
        "NOTE the neck is tight\n\nNOTE\nthe loin too\n\nopening words\n00:01.000 --> 00:02.500 align:left line:0\n"
        "the neck\n\nNOTE again\n"
    )
    assert read_cues(text) == ([Cue(1.0, 2.5, "the neck", 17)], [])


def test_subrip_numbers_and_commas() -> None:
    text = "1\n00:00:01,000 --> 00:00:02,500\nthe neck\n\n2\n00:00:03,000 --> 00:00:04,000\nsoft\n"
    assert read_cues(text) == ([Cue(1.0, 2.5, "the neck", 2), Cue(3.0, 4.0, "soft", 6)], [])


def test_a_number_that_follows_at_once_belongs_to_the_next_cue() -> None:
    cues, _ = read_cues("1\n00:00:01,000 --> 00:00:02,000\nthe neck\n2\n00:00:03,000 --> 00:00:04,000\nsoft\n")
    assert [cue.text for cue in cues] == ["the neck", "soft"]


def test_a_number_said_alone_is_speech() -> None:
    cues, _ = read_cues("1\n00:00:01,000 --> 00:00:02,000\n3\n\n2\n00:00:03,000 --> 00:00:04,000\n4\n")
    assert [cue.text for cue in cues] == ["3", "4"]


def test_subrip_text_after_a_blank_line_is_kept_and_told() -> None:
    text = "1\n00:00:01,000 --> 00:00:02,500\nthe neck\n\nis soft\n\n2\n00:00:03,000 --> 00:00:04,000\nyes\n"
    cues, problems = read_cues(text)
    assert [cue.text for cue in cues] == ["the neck is soft", "yes"]
    assert [problem.where for problem in problems] == ["line 5"]


def test_subrip_text_before_all_times_is_kept_and_told() -> None:
    cues, problems = read_cues("first the neck\n\n1\n00:00:04,000 --> 00:00:05,000\nsoft\n")
    assert cues == [Cue(0.0, 4.0, "first the neck", 1), Cue(4.0, 5.0, "soft", 4)]
    assert "placed at the start" in problems[0].text


def test_webvtt_text_outside_a_cue_is_left_out_and_told() -> None:
    cues, problems = read_cues("WEBVTT\n\n00:01.000 --> 00:02.500\nthe neck\n\nis soft\n")
    assert cues == [ONE]
    assert [(problem.where, "left out" in problem.text) for problem in problems] == [("line 6", True)]


@pytest.mark.parametrize("times", ["00:00:03:000 --> 00:00:04:000", "1:2:3:4 --> 5", "--> 00:00:04,000", "99 --> 98"])
def test_words_under_times_that_cannot_be_read_are_kept_and_told(times: str) -> None:
    cues, problems = read_cues(f"1\n00:00:01,000 --> 00:00:02,500\nthe neck\n\n2\n{times}\nis soft\n")
    assert [cue.text for cue in cues] == ["the neck is soft"]
    assert [problem.where for problem in problems] == ["line 6"]


def test_hours_beyond_any_recording_are_no_times() -> None:
    cues, problems = read_cues(
        f"WEBVTT\n\n00:01.000 --> 00:02.500\nthe neck\n\n{'9' * 400}:00:01.000 --> 1:00.000\nsoft\n"
    )
    assert [cue.text for cue in cues] == ["the neck soft"]
    assert len(problems) == 1


def test_an_arrow_among_words_stays_with_them() -> None:
    cues, problems = read_cues("WEBVTT\n\n00:01.000 --> 00:02.000\nhead --> tail\n-->\n")
    assert [cue.text for cue in cues] == ["head --> tail -->"]
    assert problems == []


def test_an_arrow_as_a_cue_name_is_no_speech() -> None:
    cues, _ = read_cues("WEBVTT\n\nfirst -->\n00:01.000 --> 00:02.500\nthe neck\n")
    assert [cue.text for cue in cues] == ["the neck"]


def test_a_cue_without_text_has_none() -> None:
    cues, _ = read_cues("1\n00:00:01,000 --> 00:00:02,000\n\n2\n00:00:03,000 --> 00:00:04,000\nsoft\n")
    assert [cue.text for cue in cues] == ["", "soft"]


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("<v Ann>the <b>neck</b></v>", "the neck"),
        ("<i>pol</i>l", "poll"),
        ("the<00:01.500><c> neck</c>", "the neck"),
        ("<c.yellow.bg_blue>soft</c>", "soft"),
        ("one<br/>two", "one two"),
        ("{\\an8}soft", "soft"),
        ("salt &amp; water", "salt & water"),
        ("&lt;b&gt; &#39;ere&#x27;s", "<b> 'ere's"),
        ("&amp;lt;", "&lt;"),
        ("a&nbsp;b&lrm;", "a\u00a0b"),
        ("<5 and >3", "<5 and >3"),
        ("unclosed <b neck", "unclosed <b neck"),
    ],
)
def test_tags_and_character_references(written: str, read: str) -> None:
    assert plain(written) == read


@pytest.mark.parametrize(
    ("clock", "seconds"),
    [((None, "1", "02", "5"), 62.5), (("1", "0", "0", "250"), 3600.25), (("0", "0", "9", None), 9.0)],
)
def test_a_fraction_is_decimal_whatever_its_length(
    clock: tuple[str | None, str, str, str | None], seconds: float
) -> None:
    assert clock_seconds(*clock) == seconds


def test_overlaps_are_cut_and_told() -> None:
    cues, problems = in_order([Cue(0.0, 5.0, "a b", 1), Cue(3.0, 6.0, "c", 4)])
    assert [(cue.start, cue.end) for cue in cues] == [(0.0, 3.0), (3.0, 6.0)]
    assert [problem.where for problem in problems] == ["line 1"]
    assert "overlaps" in problems[0].text


def test_a_touch_of_overlap_is_cut_without_a_word() -> None:
    cues, problems = in_order([Cue(0.0, 3.02, "a", 1), Cue(3.0, 6.0, "c", 4)])
    assert (cues[0].end, problems) == (3.0, [])


def test_times_that_go_backwards_are_put_in_order_and_told() -> None:
    cues, problems = in_order([Cue(9.0, 10.0, "late", 1), Cue(1.0, 2.0, "early", 4)])
    assert [cue.text for cue in cues] == ["early", "late"]
    assert [(problem.where, "backwards" in problem.text) for problem in problems] == [("line 4", True)]


def test_an_end_before_the_start_is_estimated_and_told() -> None:
    cues, problems = in_order([Cue(5.0, 1.0, "two words", 7)])
    assert cues[0].end == pytest.approx(5.8)
    assert "ends before it starts" in problems[0].text


def test_the_time_of_a_cue_is_shared_by_letters() -> None:
    made = spread([Cue(10.0, 13.0, "a bcdef", 1), Cue(13.0, 14.0, "g", 4)])
    # "a" and its blank are 2 of 8 letters.
    assert [(word.text, word.start, word.end, word.cue) for word in made] == [
        ("a", 10.0, 10.75, 0),
        ("bcdef", 10.75, 13.0, 0),
        ("g", 13.0, 14.0, 1),
    ]
