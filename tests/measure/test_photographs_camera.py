"""What the camera wrote beside the picture is read tag by tag, against files that Pillow writes."""

import struct
from datetime import datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from photo_files import apart, exif, heic, jpeg, pixels, scene, segment, written
from PIL import Image

from haywisp.measure import CameraNotes, KeptPhoto, take_in
from haywisp.measure.photographs.camera import NOT_READ, Exif, read_exif

TAGS: dict[str, Any] = {
    "t9003": "2026:05:04 09:30:15",
    "t9011": "+01:00",
    "tA405": 26,
    "tA002": 4032,
    "tA003": 3024,
}
NOTES = CameraNotes(datetime(2026, 5, 4, 9, 30, 15, tzinfo=timezone(timedelta(hours=1))), 26.0, (4032, 3024))


def heic_with(data: bytes) -> bytes:
    image = scene()
    image.info["exif"] = data
    return heic(image)


@pytest.mark.parametrize(
    "make",
    [
        lambda data: jpeg(exif=data),
        lambda data: written(scene(), "PNG", exif=data),
        lambda data: written(scene(), "WEBP", exif=data),
        heic_with,
    ],
)
def test_the_notes_of_every_form(make: Any) -> None:
    assert take_in(make(exif(**TAGS)), "horse").camera == NOTES


def test_the_notes_of_a_heic_among_others() -> None:
    """Also beside another picture, XMP, and more EXIF than its first."""
    first, second = scene(), scene()
    first.info |= {"exif": exif(**TAGS), "xmp": b"<x:xmpmeta/>"}
    second.info |= {"exif": exif(tA405=70)}
    photo = take_in(heic(first, second), "horse.heic")
    assert photo.camera == NOTES
    assert len(photo.problems) == 1


def test_a_picture_without_notes() -> None:
    assert take_in(jpeg(), "horse").camera == CameraNotes()
    assert read_exif(b"") == Exif()


@pytest.mark.parametrize("order", ["<", ">"])
def test_both_orders_of_bytes(order: str) -> None:
    made = Image.Exif()
    made.endian = order
    made[0x0112] = 8
    made.get_ifd(0x8769).update({int(name[1:], 16): value for name, value in TAGS.items()})
    data = made.tobytes()
    assert data[6:8] == {"<": b"II", ">": b"MM"}[order]
    assert read_exif(data) == Exif(NOTES, 8)
    assert read_exif(data.removeprefix(b"Exif\0\0")) == Exif(NOTES, 8)


@pytest.mark.parametrize(
    ("tags", "taken"),
    [
        ({"t9003": "2026:05:04 09:30:15"}, datetime(2026, 5, 4, 9, 30, 15)),
        ({"t9004": "2026:05:04 09:30:15"}, datetime(2026, 5, 4, 9, 30, 15)),
        ({"t9003": "0000:00:00 00:00:00", "t9004": "2026:05:04 09:30:15"}, datetime(2026, 5, 4, 9, 30, 15)),
        ({"t9003": "    :  :     :  :  "}, None),
        ({"t9003": "2026:13:45 09:30:15"}, None),
        ({"t9003": "yesterday"}, None),
        ({"t9003": "2026:05:04 09:30:15", "t9011": "Z"}, datetime(2026, 5, 4, 9, 30, 15)),
        ({"t9003": "2026:05:04 09:30:15", "t9011": "+99:99"}, datetime(2026, 5, 4, 9, 30, 15)),
    ],
)
def test_the_time_it_was_taken(tags: dict[str, str], taken: datetime | None) -> None:
    assert read_exif(exif(**tags)).notes.taken_at == taken


def test_a_time_west_of_greenwich() -> None:
    taken = read_exif(exif(t9003="2026:05:04 09:30:15", t9011="-03:30")).notes.taken_at
    assert taken is not None
    assert taken.utcoffset() == timedelta(hours=-3.5)


@pytest.mark.parametrize(("value", "focal"), [(26, 26.0), (0, None), (65535, None)])
def test_a_focal_length_that_can_be_one(value: int, focal: float | None) -> None:
    """Nought is the standard's word for unknown (CIPA DC-008, tag 0xA405; from memory)."""
    assert read_exif(exif(tA405=value)).notes.focal_35mm == focal


def test_a_list_that_is_cut_gives_what_it_has() -> None:
    data = exif(orientation=6, **TAGS)
    at = data.index(struct.pack("<H", 0xA405)) if data[6:8] == b"II" else data.index(struct.pack(">H", 0xA405))
    found = read_exif(data[: at + 6])
    assert found.orientation == 6
    assert found.problems == (NOT_READ,)


@given(st.binary(max_size=200), st.sampled_from([b"", b"II*\0\x08\0\0\0", b"MM\0*\0\0\0\x08"]))
def test_any_notes_are_read_without_a_fault(data: bytes, start: bytes) -> None:
    assert 1 <= read_exif(start + data).orientation <= 8


@given(st.integers(0, 600), st.binary(min_size=1, max_size=8))
def test_damaged_notes_are_read_without_a_fault(at: int, damage: bytes) -> None:
    data = bytearray(exif(orientation=6, **TAGS))
    data[at : at + len(damage)] = damage
    assert 1 <= read_exif(bytes(data)).orientation <= 8


def taken(data: bytes) -> KeptPhoto:
    return take_in(data, "horse.jpg")


def orientation_entry(kind: int, count: int, value: bytes) -> bytes:
    """EXIF with one entry, as its bytes."""
    return b"Exif\0\0II*\0\x08\0\0\0\1\0" + struct.pack("<HHI4s", 0x0112, kind, count, value) + bytes(4)


@pytest.mark.parametrize(
    ("kind", "count", "value"),
    [
        (3, 1, b"\0\0"),
        (3, 1, b"\x09\0"),
        (3, 1, b"\xff\xff"),
        (2, 3, b"up\0"),
        (3, 2, b"\6\0\6\0"),
        (5, 1, b"\x08\0"),
        (99, 1, b"\6\0"),
        (2, 2**32 - 1, b"\6"),
    ],
)
def test_an_absurd_orientation_is_told_and_not_followed(kind: int, count: int, value: bytes) -> None:
    photo = taken(jpeg(exif=orientation_entry(kind, count, value)))
    assert photo.sizes.orientation == 1
    assert len(photo.problems) == 1
    assert "which way is up makes no sense" in photo.problems[0]
    assert apart(pixels(photo.picture), scene()) < 2


def test_an_orientation_written_by_hand_is_followed() -> None:
    assert taken(jpeg(exif=orientation_entry(3, 1, b"\6\0"))).sizes.orientation == 6


@pytest.mark.parametrize(
    "body", [b"junk", b"II*\0\xff\xff\xff\xff", b"MM\0*\0\0\0\x08\xff\xff\1\x12", b"II*\0\x08\0\0\0\x05\0"]
)
def test_corrupt_exif_is_told_and_the_picture_kept(body: bytes) -> None:
    photo = taken(jpeg()[:2] + segment(0xE1, b"Exif\0\0" + body) + jpeg()[2:])
    assert photo.problems == (
        "What the camera wrote beside the picture (EXIF) is damaged: its time, lens or turning may be missing.",
    )
    assert apart(pixels(photo.picture), scene()) < 2
