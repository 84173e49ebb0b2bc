"""Any bytes at all: a photograph or a sentence, and nothing else. ``HAYWISP_SLOW=1`` tries many more."""

import io
import os

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from photo_files import box, chunk, exif, heic, jpeg, noise, scene, segment, written
from PIL import Image

from haywisp.measure import KeptPhoto, NotTaken, take_in

SLOW = os.environ.get("HAYWISP_SLOW") == "1"
ANY = settings(
    max_examples=20_000 if SLOW else 250,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    derandomize=not SLOW,
    database=None,
)
SMALL = scene((220, 210))
TAGS = {"orientation": 6, "t9003": "2026:05:04 09:30:15", "tA405": 26}
FILES = (
    jpeg(SMALL, exif=exif(**TAGS)),
    jpeg(SMALL, progressive=True, exif=exif(**TAGS)),
    jpeg(SMALL.convert("CMYK")),
    written(SMALL, "PNG", exif=exif(**TAGS)),
    written(SMALL.quantize(16), "PNG", transparency=3),
    written(SMALL, "PNG", save_all=True, append_images=[noise((220, 210))]),
    written(SMALL, "WEBP", exif=exif(**TAGS)),
    written(SMALL, "WEBP", lossless=True),
    heic(SMALL),
)
BEGINNINGS = (
    b"\xff\xd8\xff",
    b"\xff\xd8" + segment(0xE1, exif(**TAGS)),
    b"\xff\xd8" + segment(0xC0, b"\x08\1\0\1\0\3\1\x22\0\2\x11\1\3\x11\1"),
    b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", b"\0\0\1\0\0\0\1\0\x08\2\0\0\0"),
    b"RIFF\x40\0\0\0WEBPVP8X\x0a\0\0\0",
    b"RIFF\x40\0\0\0WEBPVP8L",
    box(b"ftyp", b"heic\0\0\0\0mif1heic"),
    box(b"ftyp", b"heic\0\0\0\0mif1heic") + b"\0\0\0\x40meta\0\0\0\0",
)


def taken_or_told(data: bytes) -> None:
    try:
        photo = take_in(data, "horse.jpg")
    except NotTaken as told:
        assert str(told).startswith("horse.jpg")
        assert str(told).endswith((".", "untouched."))
        return
    assert isinstance(photo, KeptPhoto)
    for picture, frame in ((photo.picture, "kept"), (photo.preview, "preview")):
        with Image.open(io.BytesIO(picture)) as image:
            image.load()
            assert (image.format, image.mode, image.size) == ("JPEG", "RGB", photo.sizes.size(frame))  # type: ignore[arg-type]


@ANY
@given(st.sampled_from((b"", *BEGINNINGS)), st.binary(max_size=400))
def test_any_bytes(start: bytes, data: bytes) -> None:
    taken_or_told(start + data)


@st.composite
def spoilt(draw: st.DrawFn) -> bytes:
    """A photograph with bytes changed, put in, taken out or cut off; headers more often than pixels."""
    data = bytearray(draw(st.sampled_from(FILES)))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.one_of(st.integers(0, min(700, len(data))), st.integers(0, len(data))))
        damage = draw(st.binary(max_size=8))
        taken = draw(st.sampled_from([len(damage), 0, 1, 4, 100]))
        data[at : at + taken] = damage
    return bytes(data[: draw(st.one_of(st.just(len(data)), st.integers(0, len(data))))])


@ANY
@given(spoilt())
def test_any_damage(data: bytes) -> None:
    taken_or_told(data)
