"""A landmark keeps its place between the original, the upright, the kept and the small picture."""

import io
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from photo_files import exif, jpeg, scene
from PIL import Image, ImageOps

from haywisp.measure import PhotoSizes, take_in
from haywisp.measure.types import Frame

FRAMES: tuple[Frame, ...] = ("original", "upright", "kept", "preview")
SIDES = st.integers(1, 20_000)


@st.composite
def sizes(draw: st.DrawFn) -> PhotoSizes:
    return PhotoSizes(draw(SIDES), draw(SIDES), draw(st.integers(1, 8)), *(draw(SIDES) for _ in range(4)))


@given(sizes(), st.sampled_from(FRAMES), st.sampled_from(FRAMES), st.floats(0, 1), st.floats(0, 1))
def test_there_and_back_again(photo: PhotoSizes, start: Frame, end: Frame, across: float, down: float) -> None:
    width, height = photo.size(start)
    point = (across * width, down * height)
    there = photo.mapped(point, start, end)
    assert 0 <= there[0] <= photo.size(end)[0] * (1 + 1e-12)
    assert 0 <= there[1] <= photo.size(end)[1] * (1 + 1e-12)
    assert photo.mapped(there, end, start) == pytest.approx(point, rel=1e-9, abs=1e-9 * max(width, height))


@given(sizes(), *(st.sampled_from(FRAMES) for _ in range(3)), st.floats(0, 1), st.floats(0, 1))
def test_a_way_round_ends_where_the_straight_way_does(
    photo: PhotoSizes, start: Frame, by: Frame, end: Frame, across: float, down: float
) -> None:
    point = (across * photo.size(start)[0], down * photo.size(start)[1])
    round_about = photo.mapped(photo.mapped(point, start, by), by, end)
    assert round_about == pytest.approx(photo.mapped(point, start, end), rel=1e-9, abs=1e-9 * max(photo.size(end)))


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_pixel_goes_where_the_reference_puts_it(orientation: int) -> None:
    """Against Pillow's ``ImageOps.exif_transpose``, on a picture in which every pixel has its own number."""
    numbers = np.arange(5 * 3, dtype=np.uint8).reshape(3, 5)
    stored = Image.fromarray(numbers)
    stored.getexif()[0x0112] = orientation
    upright = np.asarray(ImageOps.exif_transpose(stored))
    photo = PhotoSizes(5, 3, orientation, *upright.shape[::-1], *upright.shape[::-1])
    for x, y in product(range(5), range(3)):
        across, down = photo.mapped((x + 0.5, y + 0.5), "original", "upright")
        assert upright[int(down), int(across)] == numbers[y, x]
        assert (across % 1, down % 1) == pytest.approx((0.5, 0.5))


def test_the_corner_that_the_standard_names() -> None:
    """Orientation 6: row 0 is the right side and column 0 the top (CIPA DC-008, tag 0x0112; from memory)."""
    photo = PhotoSizes(4000, 3000, 6, 2250, 3000, 360, 480)
    assert photo.mapped((0, 0), "original", "kept") == (2250, 0)
    assert photo.mapped((4000, 0), "original", "kept") == (2250, 3000)
    assert photo.mapped((360, 480), "preview", "upright") == (3000, 4000)
    assert photo.size("upright") == (3000, 4000)
    assert photo.scale == 0.75


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_mark_in_the_file_is_found_in_what_is_kept(orientation: int) -> None:
    stored = scene((3600, 2400))
    stored.paste((255, 255, 255), (2990, 490, 3010, 510))
    photo = take_in(jpeg(stored, exif=exif(orientation=orientation)), "horse.jpg")
    for frame, data in (("kept", photo.picture), ("preview", photo.preview)):
        light = np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).min(axis=2)
        row, column = np.unravel_index(int(light.argmax()), light.shape)
        assert photo.sizes.mapped((3000, 500), "original", frame) == pytest.approx((column + 0.5, row + 0.5), abs=10)
