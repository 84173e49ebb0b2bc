"""Photographs made for the tests: a scene whose corners differ, in any form, with what cameras write beside it."""

import io
import struct
import zlib
from typing import Any

import numpy as np
from PIL import Image

#: Colours of the corners of the scene: upper left, upper right, lower left, lower right.
CORNERS = ((220, 40, 40), (40, 200, 40), (40, 40, 220), (220, 220, 60))
SIZE = (480, 360)


def scene(size: tuple[int, int] = SIZE) -> Image.Image:
    """Four corners of four colours that run into each other."""
    small = np.array(CORNERS, np.uint8).reshape(2, 2, 3)
    return Image.fromarray(small).resize(size, Image.Resampling.BILINEAR)


def noise(size: tuple[int, int], seed: int = 1) -> Image.Image:
    """Chance in every pixel: what no writer can make smaller."""
    return Image.fromarray(np.random.default_rng(seed).integers(0, 256, (size[1], size[0], 3), np.uint8))


def written(image: Image.Image, form: str, **how: Any) -> bytes:
    """A file of a form that Pillow writes."""
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def jpeg(image: Image.Image | None = None, **how: Any) -> bytes:
    """A JPEG of the scene, fine enough to compare its pixels."""
    return written(image or scene(), "JPEG", **{"quality": 95, "subsampling": 0, **how})


def heic(*images: Image.Image, **how: Any) -> bytes:
    """A HEIC of one picture or more, by the reader's own library."""
    import pillow_heif

    file = pillow_heif.HeifFile()
    for image in images or (scene(),):
        # As it is stored; the writer makes boxes that turn it from the EXIF orientation.
        added = file.add_frombytes(image.mode, image.size, image.tobytes())
        added.info |= {key: image.info[key] for key in ("exif", "xmp", "icc_profile") if key in image.info}
    out = io.BytesIO()
    file.save(out, **{"quality": 95, "enc_params": {"preset": "ultrafast"}, **how})
    return out.getvalue()


def box(kind: bytes, body: bytes) -> bytes:
    """A box of the ISO base media format."""
    return struct.pack(">I4s", 8 + len(body), kind) + body


def chunk(kind: bytes, body: bytes) -> bytes:
    """A chunk of a PNG file."""
    return struct.pack(">I4s", len(body), kind) + body + struct.pack(">I", zlib.crc32(kind + body))


def segment(marker: int, body: bytes) -> bytes:
    """A segment of a JPEG file."""
    return struct.pack(">BBH", 0xFF, marker, 2 + len(body)) + body


def exif(**tags: Any) -> bytes:
    """EXIF as Pillow writes it, with its heading; ``orientation``, and tags of the camera's own list by number."""
    made = Image.Exif()
    if "orientation" in tags:
        made[0x0112] = tags.pop("orientation")
    for name, value in tags.items():
        made.get_ifd(0x8769)[int(name.removeprefix("t"), 16)] = value
    return made.tobytes()


def pixels(data: bytes) -> np.ndarray[Any, Any]:
    """The pixels of a kept picture, as whole numbers that may be subtracted: height × width × 3."""
    image = Image.open(io.BytesIO(data))
    assert (image.format, image.mode) == ("JPEG", "RGB")
    return np.asarray(image).astype(int)


def apart(one: np.ndarray[Any, Any], other: np.ndarray[Any, Any] | Image.Image) -> float:
    """The mean difference of two pictures of one size, in steps of 255."""
    against = np.asarray(other).astype(int)
    assert one.shape == against.shape
    return float(np.abs(one - against).mean())
