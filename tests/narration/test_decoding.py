"""Bytes to text. Byte order marks: Unicode Standard, section 23.8; Windows-1252: WHATWG Encoding Standard."""

import pytest

from haywisp.narration import Unreadable
from haywisp.narration.decoding import LIMIT_BYTES, clean, decode

SAID = "The poll feels soft, señora.\nGood boy."


@pytest.mark.parametrize(
    ("codec", "told"),
    [
        ("utf-8", ""),
        ("utf-8-sig", ""),
        ("utf-16", ""),
        ("utf-32", ""),
        ("utf-16-le", "UTF-16"),
        ("utf-16-be", "UTF-16"),
        ("cp1252", "Windows-1252"),
    ],
)
def test_every_usual_encoding_is_read(codec: str, told: str) -> None:
    text, problems = decode(SAID.encode(codec), "told.txt")
    assert text == SAID
    assert len(problems) == (1 if told else 0)
    assert all(told in problem.text for problem in problems)


def test_big_endian_marks_are_read() -> None:
    assert decode(b"\xfe\xff" + SAID.encode("utf-16-be"), "told.txt") == (SAID, ())
    assert decode(b"\x00\x00\xfe\xff" + SAID.encode("utf-32-be"), "told.txt") == (SAID, ())


def test_the_line_of_the_first_foreign_byte_is_told() -> None:
    _, problems = decode(b"fine\nfine\ncaf\xe9 yard\n", "told.txt")
    assert [problem.where for problem in problems] == ["line 3"]


@pytest.mark.parametrize("data", [b"", b" \r\n\t\n", b"\xef\xbb\xbf", b"\xff\xfe", b"\xef\xbb\xbf  \n"])
def test_nothing_is_refused_as_empty(data: bytes) -> None:
    with pytest.raises(Unreadable, match=r"^told\.txt: the file is empty\. .+\.$"):
        decode(data, "told.txt")


@pytest.mark.parametrize(
    "data",
    [
        b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x02\x00\x00\x00\x02\x00\x08\x06",
        b"RIFF$\x08\x00\x00WAVEfmt \x10\x00\x00\x00\x01\x00\x02\x00",
        b"\x00" * 64,
        b"\x01\x02\x03\x04\x05",
        b"\xff\xfb\x90d" + bytes(range(1, 32)) * 8,
        b"\x7fELF\x02\x01\x01" + b"\x00" * 9,
        b"the neck is soft\x00" * 4,
    ],
)
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(Unreadable, match=r"^told\.txt: this is not text .+ Choose a WebVTT"):
        decode(data, "told.txt")


def test_a_mark_that_the_bytes_belie_is_refused_with_the_byte() -> None:
    with pytest.raises(Unreadable, match=r"byte 9 does not fit .+Save it as UTF-8\."):
        decode(b"\xef\xbb\xbfall go\xe9d", "told.txt")


def test_half_a_letter_of_utf_16_is_refused() -> None:
    with pytest.raises(Unreadable, match=r"does not fit .+utf-16"):
        decode(SAID.encode("utf-16")[:-1], "told.txt")


def test_more_than_32_megabytes_is_refused_and_the_limit_itself_is_not() -> None:
    with pytest.raises(Unreadable, match="larger than 32 MB"):
        decode(b"a" * (LIMIT_BYTES + 1), "told.txt")
    assert len(decode(b"a" * LIMIT_BYTES, "told.txt")[0]) == 32 * 1024 * 1024


def test_a_stray_control_character_becomes_a_blank() -> None:
    assert decode(b"over the neck" * 9 + b"\x07soft", "told.txt")[0].endswith("neck soft")


def test_marks_without_sound_or_shape_are_dropped_and_accents_kept() -> None:
    assert clean("\u200epo\u200bll\ufeff \ud800 é") == "poll  é"
