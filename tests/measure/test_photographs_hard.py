"""Files that are no photograph, too much of one, or only a part: each gets its own sentence."""

import os
import struct
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from photo_files import SIZE, apart, box, chunk, exif, heic, jpeg, noise, pixels, scene, segment, written
from PIL import Image

from haywisp.measure import NotTaken, take_in
from haywisp.measure.photographs.limits import MOST_BYTES, MOST_PARTS

FTYP_MP4 = box(b"ftyp", b"isom\0\0\2\0isomiso2avc1mp41")
FTYP_HEIC = box(b"ftyp", b"heic\0\0\0\0mif1heic")
MOOV = box(b"moov", box(b"mvhd", bytes(100)))
ANIMATED = {"save_all": True, "append_images": [noise(SIZE, seed) for seed in (2, 3)]}


def refused(data: bytes | Path, name: str = "horse.jpg") -> str:
    with pytest.raises(NotTaken) as caught:
        take_in(data, name)
    sentence = str(caught.value)
    assert sentence.startswith(name)
    return sentence


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is empty"),
        (b"Bay mare, worked on the near side.\n", "is text, whatever its name says. Give the photograph itself (JPEG"),
        ("Stute, kräftig".encode(), "is text"),
        (
            b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj",
            "is a PDF, whatever its name says. Export the picture in it as a JPEG",
        ),
        (b'<?xml version="1.0"?>\n<svg xmlns="a"><script/></svg>', "is a drawing (SVG)"),
        (b"\xef\xbb\xbf  <SVG>", "is a drawing (SVG)"),
        (b"<!DOCTYPE html><p>horse", "is a page of the web"),
        (written(scene(), "GIF"), "is a GIF, whatever its name says. Export it as a JPEG"),
        (written(scene(), "BMP"), "is a BMP"),
        (written(scene(), "TIFF"), "is a camera's raw file or a TIFF"),
        (written(scene(), "AVIF"), "is an AVIF"),
        (written(scene(), "JPEG2000"), "is a JPEG 2000"),
        (FTYP_MP4 + box(b"mdat", bytes(50)) + MOOV, "is a video, whatever its name says. Take a still picture from it"),
        (box(b"ftyp", b"qt  \0\0\0\0qt  ") + MOOV, "is a video"),
        (FTYP_HEIC + MOOV + box(b"mdat", bytes(50)), "is a video"),
        (FTYP_HEIC + box(b"meta", bytes(4) + box(b"hdlr", bytes(8) + b"mdir" + bytes(13))) + MOOV, "is a video"),
        (box(b"ftyp", b"M4A \0\0\0\0M4A ") + box(b"mdat", bytes(9)), "is a video or a sound recording"),
        (b"RIFF\x24\0\0\0WAVEfmt ", "is a video or a sound recording"),
        (b"PK\x03\x04\x14\0", "is a packed folder or an office document"),
        (bytes(range(256)) * 4, "is no picture that is known here"),
    ],
)
def test_what_is_no_photograph_is_named(data: bytes, words: str) -> None:
    assert words in refused(data)


@pytest.mark.parametrize(
    ("name", "start"), [("a\x1b[31m\nb", "a?[31m?b is empty"), (" ", "The file is empty"), ("x" * 5000, "x" * 80 + "…")]
)
def test_a_name_is_shown_as_it_can_be(name: str, start: str) -> None:
    with pytest.raises(NotTaken) as caught:
        take_in(b"", name)
    assert str(caught.value).startswith(start)
    assert len(str(caught.value)) < 200


def with_size(data: bytes, size: tuple[int, int]) -> bytes:
    """A JPEG whose header says another size."""
    at = data.index(b"\xff\xc0")
    return data[: at + 5] + struct.pack(">HH", size[1], size[0]) + data[at + 9 :]


def heic_of(size: tuple[int, int], **how: Any) -> bytes:
    return heic(**how).replace(struct.pack(">II", *SIZE), struct.pack(">II", *size))


def webp_of(size: tuple[int, int]) -> bytes:
    data = written(scene(), "WEBP", exif=exif(orientation=1))
    small, large = (b"".join(struct.pack("<I", side - 1)[:3] for side in sides) for sides in (SIZE, size))
    return data.replace(small, large, 1)


def png_of(size: tuple[int, int]) -> bytes:
    return (
        written(scene(), "PNG")[:8]
        + chunk(b"IHDR", struct.pack(">IIBBBBB", *size, 8, 2, 0, 0, 0))
        + chunk(b"IDAT", b"")
    )


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (png_of((60_000, 50_000)), "60000 × 50000 pixels, more than the 50 million that are read of a PNG. Export it"),
        (with_size(jpeg(), (60_000, 50_000)), "more than the 250 million that are read of a JPEG."),
        (with_size(jpeg(), (65_500, 65_500)), "65500 × 65500"),
        (heic_of((30_000, 20_000)), "30000 × 20000 pixels, more than the 50 million that are read of a HEIC"),
        (heic_of((6000, 5000), chroma=444), "more than the 25 million that are read of a HEIC of full colour detail"),
        (webp_of((16_000, 16_000)), "more than the 16 million that are read of a WebP"),
    ],
)
def test_a_bomb_is_known_from_its_header(data: bytes, words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """No reader is asked for a pixel."""
    monkeypatch.delattr("PIL.ImageFile.ImageFile.__init__")
    monkeypatch.delattr("PIL.ImageFile.ImageFile.load")
    monkeypatch.delattr("pillow_heif.heif.BaseImage.load")
    assert words in refused(data)


def test_a_progressive_bomb_is_smaller() -> None:
    data = jpeg(progressive=True).replace(b"\xff\xc2", b"\xff\xc0", 1)
    huge = with_size(data, (10_000, 9_000)).replace(b"\xff\xc0", b"\xff\xc2", 1)
    assert "more than the 50 million that are read of a JPEG in several passes" in refused(huge)


def many_parts(number: int) -> dict[str, bytes]:
    """A photograph of each form with so many empty pieces before its pixels."""
    picture, png, container = jpeg(), written(scene(), "PNG"), heic()
    return {
        "JPEG": picture[:2] + segment(0xE5, b"") * number + picture[2:],
        "PNG": png[:33] + chunk(b"prVt", b"") * number + png[33:],
        "HEIC": container + box(b"free", b"") * number,
    }


@pytest.mark.parametrize("form", ["JPEG", "PNG", "HEIC"])
def test_a_file_in_endless_pieces_is_refused(form: str) -> None:
    refused(many_parts(MOST_PARTS)[form])
    assert take_in(many_parts(1000)[form], "horse").problems == ()


def test_a_heic_of_endless_lists_is_refused() -> None:
    data = heic()
    at = data.index(b"meta") - 4
    size = int.from_bytes(data[at : at + 4], "big")
    long = struct.pack(">I", size + 300_000) + data[at + 4 : at + size] + box(b"free", bytes(299_992))
    assert "is a HEIC that can't be read" in refused(data[:at] + long + data[at + size :])


def test_a_heic_that_hides_its_size_is_refused() -> None:
    """The header says 640 × 480, the stream inside it 2000 × 1500."""
    data = heic(scene((2000, 1500))).replace(struct.pack(">II", 2000, 1500), struct.pack(">II", 640, 480))
    assert "can't be read: it is damaged, or of a rare kind" in refused(data)


def test_a_jpeg_of_endless_passes_is_refused() -> None:
    data = jpeg(progressive=True)
    last = data.rindex(b"\xff\xda")
    assert "more than 100 passes" in refused(data[:-2] + data[last:-2] * 100 + b"\xff\xd9")
    assert take_in(data[:-2] + data[last:-2] * 5 + b"\xff\xd9", "a").problems == ()


@pytest.mark.parametrize("size", [(1, 1), (199, 4000), (40, 30)])
@pytest.mark.parametrize("make", [jpeg, lambda one: written(one, "PNG"), lambda one: written(one, "WEBP"), heic])
def test_too_small_for_landmarks(make: Callable[[Image.Image], bytes], size: tuple[int, int]) -> None:
    assert f"is {size[0]} × {size[1]} pixels" in refused(make(scene(size)))
    assert "too small to place landmarks in" in refused(make(scene(size)))


def test_too_narrow_once_it_is_kept() -> None:
    assert "is 12000 × 600 pixels, kept at 3000 × 150: too small" in refused(jpeg(scene((12_000, 600))))


def cut(data: bytes, share: float) -> bytes:
    """A file that ends within the pixels."""
    start = data.index(b"\xff\xda" if data.startswith(b"\xff\xd8") else b"IDAT")
    return data[: start + round(share * (len(data) - start))]


@pytest.mark.parametrize("make", [jpeg, lambda one: written(one, "PNG")])
def test_most_of_a_cut_picture_is_used(make: Callable[..., bytes]) -> None:
    """Chance takes as many bytes in every row: two thirds of them are two thirds of the rows."""
    whole = noise((600, 600))
    photo = take_in(cut(make(whole), 2 / 3), "horse")
    assert photo.problems == ("The file is cut short: about the lower third is missing, and grey. Copy it again.",)
    kept = pixels(photo.picture)
    right = pixels(take_in(make(whole), "horse").picture)
    assert kept.shape == (600, 600, 3)
    assert apart(kept[:380], right[:380]) < 1
    assert (abs(kept[404:] - 128) <= 1).all()


@pytest.mark.parametrize(
    ("orientation", "side", "missing"),
    [
        (1, "lower", np.s_[450:, :]),
        (2, "lower", np.s_[450:, :]),
        (3, "upper", np.s_[:150, :]),
        (4, "upper", np.s_[:150, :]),
        (5, "right", np.s_[:, 450:]),
        (6, "left", np.s_[:, :150]),
        (7, "left", np.s_[:, :150]),
        (8, "right", np.s_[:, 450:]),
    ],
)
def test_what_is_missing_is_told_where_it_is_seen(orientation: int, side: str, missing: Any) -> None:
    photo = take_in(cut(jpeg(noise((600, 600)), exif=exif(orientation=orientation)), 0.7), "horse.jpg")
    assert f"about the {side} third is missing" in photo.problems[0]
    assert (abs(pixels(photo.picture)[missing] - 128) <= 1).all()


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.99, "a strip at the lower edge is missing"),
        (0.9, "about the lower tenth is missing"),
        (0.75, "about the lower quarter is missing"),
        (0.6, "about the lower two fifths are missing"),
    ],
)
def test_how_much_is_missing_is_told(share: float, words: str) -> None:
    assert words in take_in(cut(jpeg(noise((900, 900))), share), "horse.jpg").problems[0]


def test_only_the_end_mark_is_missing() -> None:
    photo = take_in(jpeg(noise((600, 600)))[:-2], "horse.jpg")
    assert len(photo.problems) == 1
    assert photo.problems[0].startswith("The file is cut short")


@pytest.mark.parametrize("share", [0, 0.01, 0.2, 0.45])
@pytest.mark.parametrize("make", [jpeg, lambda one: written(one, "PNG")])
def test_too_little_of_a_cut_picture_is_refused(make: Callable[..., bytes], share: float) -> None:
    assert "is cut short, less than 50% of it is there. Copy it from" in refused(cut(make(noise((600, 600))), share))


def test_a_jpeg_with_a_damaged_header_is_not_called_cut() -> None:
    data = jpeg()
    at = data.index(b"\xff\xdb") + 2
    assert "is a JPEG that can't be read: it is damaged" in refused(data[:at] + b"\xff\xff" + data[at + 2 :])


@pytest.mark.parametrize("length", [3, 20, 200])
def test_a_jpeg_cut_in_its_header_is_refused(length: int) -> None:
    assert "is cut short" in refused(jpeg()[:length])


def test_a_progressive_jpeg_that_is_cut_is_whole_and_coarse() -> None:
    whole = jpeg(scene((800, 600)), progressive=True)
    photo = take_in(whole[: whole.rindex(b"\xff\xda") + 20], "horse.jpg")
    assert photo.problems == (
        "The file is cut short: all of the picture is there, and its finest detail is missing. Copy it again.",
    )
    assert apart(pixels(photo.picture), scene((800, 600))) < 8
    second = whole.index(b"\xff\xda", whole.index(b"\xff\xda") + 2)
    assert "less than 50% of it is there" in refused(whole[: second + 20])


@pytest.mark.parametrize(("data", "form"), [(heic(), "a HEIC"), (written(noise(SIZE), "WEBP"), "a WebP")])
@pytest.mark.parametrize("share", [0.05, 0.8, 0.999])
def test_what_can_only_be_read_whole_says_so(data: bytes, form: str, share: float) -> None:
    assert f"is cut short, and {form} can only be read whole" in refused(data[: round(share * len(data))])


def png_by_hand(rows: bytes, *, interlaced: bool) -> bytes:
    """A PNG of 400 × 400 pixels with these bytes as its packed rows."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 400, 400, 8, 2, 0, 0, interlaced))
    return written(scene(), "PNG")[:8] + head + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def test_an_interlaced_png_can_only_be_read_whole() -> None:
    """One pass of seven: the first has every eighth pixel of every eighth row (PNG specification, section 8.2)."""
    data = png_by_hand((b"\0" + bytes(150)) * 50, interlaced=True)
    assert "a PNG of this kind can only be read whole" in refused(data)


def test_a_png_whose_rows_end_early_is_told() -> None:
    photo = take_in(png_by_hand((b"\0" + bytes(1200)) * 300, interlaced=False), "horse.png")
    assert photo.problems == ("The file is cut short: about the lower quarter is missing, and grey. Copy it again.",)


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_the_first_of_a_moving_picture_is_taken(form: str) -> None:
    photo = take_in(written(scene(), form, lossless=True, **ANIMATED), "horse")
    assert photo.problems == ("It is a moving picture of 3 frames: the first was taken in, the others are left out.",)
    assert apart(pixels(photo.picture), scene()) < 2


def test_the_main_picture_of_several_is_taken() -> None:
    photo = take_in(heic(noise(SIZE), scene(), primary_index=1), "burst.heic")
    assert photo.problems == ("The file holds 2 pictures: the main one was taken in, the others are left out.",)
    assert apart(pixels(photo.picture), scene()) < 5


def test_a_jpeg_of_twelve_bits_is_named() -> None:
    data = jpeg()
    at = data.index(b"\xff\xc0") + 4
    assert "is a JPEG of 12 bits a colour that can't be read" in refused(data[:at] + b"\x0c" + data[at + 1 :])


def test_a_damaged_png_is_used_down_to_the_damage() -> None:
    data = bytearray(written(scene((600, 600)), "PNG"))
    at = len(data) * 4 // 5
    data[at : at + 40] = b"\xff" * 40
    photo = take_in(bytes(data), "horse.png")
    assert len(photo.problems) == 1
    assert photo.problems[0].startswith("The file is damaged: ")
    assert apart(pixels(photo.picture)[:300], scene((600, 600)).crop((0, 0, 600, 300))) < 2


def test_fifty_megabytes_are_taken_in() -> None:
    """A JPEG of chance, as fine as the limit lets it be."""
    data = jpeg(noise((5200, 3900)), quality=96)
    assert 50_000_000 < len(data) < MOST_BYTES
    photo = take_in(data, "large.jpg")
    assert (photo.sizes.kept_width, photo.sizes.kept_height, photo.problems) == (3000, 2250, ())
    assert len(photo.picture) < 8_000_000


def test_too_many_bytes(tmp_path: Path) -> None:
    path = tmp_path / "film.jpg"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    for source in (path, bytes(MOST_BYTES + 1)):
        assert "film.jpg has more than 80 MB, the most that is read" in refused(source, "film.jpg")


@pytest.mark.parametrize("name", ["missing.jpg", ".", "a\0b"])
def test_a_path_without_a_file(tmp_path: Path, name: str) -> None:
    assert "can't be read: " in refused(tmp_path / name)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes there")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    assert "it is a folder or a device" in refused(tmp_path / "pipe.jpg")


class Growing(type(Path())):  # type: ignore[misc]
    """A file to which another program writes while it is read."""

    def open(self, mode: str = "r", *how: Any, **more: Any) -> Any:
        file = super().open(mode, *how, **more)
        return Watched(file, str(self)) if mode == "rb" else file


class Watched:
    """An open file that grows by a thousand bytes with every reading."""

    def __init__(self, file: Any, path: str) -> None:
        self.file, self.path, self.fileno = file, path, file.fileno

    def __enter__(self) -> "Watched":
        return self

    def __exit__(self, *fault: object) -> None:
        self.file.close()

    def read(self, size: int) -> Any:
        data = self.file.read(size)
        with Path(self.path).open("ab") as other:
            other.write(bytes(1000))
        return data


def test_a_file_that_grows_is_told(tmp_path: Path) -> None:
    path = Growing(tmp_path / "horse.jpg")
    path.write_bytes(jpeg())
    assert "is still being written: it changed while it was read. Wait" in refused(path)
