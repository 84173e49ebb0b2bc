"""A picture of any form as strips of rows, its header looked at before a pixel is read."""

import io
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import IO, TYPE_CHECKING, Any, cast

from haywisp.measure.photographs.errors import CutShort, DamagedPhoto, TooManyPixels, TooManyScans
from haywisp.measure.photographs.forms import boxes_cut
from haywisp.measure.photographs.heif_parts import heif_parts
from haywisp.measure.photographs.jpeg_parts import JpegParts, in_passes, jpeg_parts, scans
from haywisp.measure.photographs.limits import LEAST_PART, MOST_CLAIMED, MOST_PIXELS, MOST_SCANS
from haywisp.measure.photographs.partial import Joined, Loss, load
from haywisp.measure.photographs.png_parts import png_parts
from haywisp.measure.photographs.sizing import Size, kept_size

if TYPE_CHECKING:
    from PIL import Image
    from PIL.ImageFile import ImageFile

JPEG_END = b"\xff\xd9"
COARSE = "The file is cut short: all of the picture is there, and its finest detail is missing. Copy it again."
IN_PASSES = "JPEG in several passes"
FINE_HEIC = "HEIC of full colour detail"
PNG_HEAD_BYTES = 33
WEBP_HEAD_BYTES = 30


@dataclass(frozen=True, slots=True)
class Opened:
    """A picture that was read.

    ``stored`` is its size in pixels as the file has it, ``size`` as it was read, which may be smaller; ``inner`` is
    the part of ``size`` that the picture fills, to a fraction of a pixel. ``strip`` gives the rows from the first
    (included) to the last (excluded). ``upright`` is true where the form's own reader has turned the picture.
    """

    stored: Size
    size: Size
    inner: tuple[float, float]
    strip: Callable[[int, int], "Image.Image"]
    profile: bytes | None
    exif: bytes
    loss: Loss = field(default_factory=Loss)
    upright: bool = False
    problems: tuple[str, ...] = ()


def opened(form: str, data: bytes, name: str) -> Opened:
    """The picture in a file of this form; a :class:`NotTaken` when it is too large, too small, or not there."""
    return {"JPEG": _jpeg, "PNG": _png, "WebP": _webp, "HEIC": _heic}[form](data, name)


def _checked(size: Size, form: str, name: str) -> Size:
    """The size that is kept of a picture that may be read."""
    if min(size) < 1:
        raise DamagedPhoto(name, form)
    if size[0] * size[1] > MOST_PIXELS[form]:
        raise TooManyPixels(name, form, size, MOST_PIXELS[form])
    return kept_size(size, name)


def _jpeg(data: bytes, name: str) -> Opened:
    from PIL.JpegImagePlugin import JpegImageFile

    parts = jpeg_parts(data)
    if parts is None:
        raise DamagedPhoto(name, "JPEG") if data.rstrip(b"\0").endswith(JPEG_END) else CutShort(name)
    if parts.bits != 8:
        raise DamagedPhoto(name, f"JPEG of {parts.bits} bits a colour")
    passes = in_passes(data, parts)
    kept = _checked(parts.size, IN_PASSES if passes else "JPEG", name)
    whole = not passes or _has_all_passes(data, parts, name)
    pieces = (parts.needed, memoryview(data)[parts.scan_at :], b"" if whole else JPEG_END)
    # The reader never sees what else is in the file: nothing there can fill the memory or lead it astray.
    image = JpegImageFile(cast("IO[bytes]", Joined(pieces)))
    if image.size != parts.size:
        raise DamagedPhoto(name, "JPEG")
    drawn = image.draft(None, kept)
    inner = drawn[1][2:] if drawn else image.size
    loss = _loaded(image, "JPEG", name)
    profile = image.info.get("icc_profile")
    problems = () if whole else (COARSE,)
    return Opened(parts.size, image.size, inner, _rows_of(image), profile, parts.exif, loss, problems=problems)


def _has_all_passes(data: bytes, parts: JpegParts, name: str) -> bool:
    """False when some are missing and the others make a picture that is whole, if coarse."""
    made = []
    for scan in scans(data, parts):
        made.append(scan)
        if len(made) > MOST_SCANS:
            raise TooManyScans(name)
    if made and made[-1].whole:
        return True
    if not any(scan.whole and scan.last > 0 and parts.components[0] in scan.components for scan in made):
        raise CutShort(name)
    return False


def _png(data: bytes, name: str) -> Opened:
    from PIL.PngImagePlugin import PngImageFile

    parts = png_parts(data)
    if parts is None:
        raise CutShort(name) if len(data) < PNG_HEAD_BYTES else DamagedPhoto(name, "PNG")
    _checked(parts.size, "PNG", name)
    if not parts.begun and not parts.ended:
        raise CutShort(name)
    image = PngImageFile(io.BytesIO(parts.needed))
    if image.size != parts.size:
        raise DamagedPhoto(name, "PNG")
    loss = _loaded(image, "PNG", name)
    if loss != Loss() and parts.interlaced:
        # Its passes are strewn over the whole picture.
        raise CutShort(name, "a PNG of this kind")
    return _of_image(image, parts.exif, loss, _moving(parts.frames))


def _webp(data: bytes, name: str) -> Opened:
    from PIL.WebPImagePlugin import WebPImageFile

    said = int.from_bytes(data[4:8], "little") + 8
    if len(data) < max(said, WEBP_HEAD_BYTES):
        raise CutShort(name, "a WebP")
    size = _webp_size(data[:WEBP_HEAD_BYTES])
    _checked(size, "WebP", name)
    image = WebPImageFile(cast("IO[bytes]", Joined([memoryview(data)[:said]])))
    if image.size != size:
        raise DamagedPhoto(name, "WebP")
    image.load()
    image.fp = None
    return _of_image(image, image.info.get("exif") or b"", Loss(), _moving(image.n_frames))


def _webp_size(head: bytes) -> Size:
    """Width and height in the header of a WebP file (RFC 9649, sections 2.5 to 2.7, from memory); (0, 0) for none."""
    kind = head[12:16]
    if kind == b"VP8X":
        return int.from_bytes(head[24:27], "little") + 1, int.from_bytes(head[27:30], "little") + 1
    if kind == b"VP8L" and head[20] == 0x2F:
        bits = int.from_bytes(head[21:25], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 " and head[23:26] == b"\x9d\x01\x2a":
        return int.from_bytes(head[26:28], "little") & 0x3FFF, int.from_bytes(head[28:30], "little") & 0x3FFF
    return 0, 0


def _heic(data: bytes, name: str) -> Opened:
    import pillow_heif
    from PIL import Image

    if boxes_cut(data):
        raise CutShort(name, "a HEIC")
    parts = heif_parts(data)
    if parts is None or parts.claimed_bytes > MOST_CLAIMED * len(data):
        raise DamagedPhoto(name, "HEIC")
    file = pillow_heif.open_heif(parts.needed, convert_hdr_to_8bit=True)
    main = file[file.primary_index]
    beside = cast("dict[str, Any]", main.info)
    fine = beside.get("chroma") not in {400, 420} or (beside["bit_depth"] > 8 and main.has_alpha)
    form = FINE_HEIC if fine else "HEIC"
    _checked(main.size, form, name)
    pixels = memoryview(main.data)
    # Reading may find another size than the header's.
    size, mode, stride = main.size, main.mode, main.stride
    _checked(size, form, name)

    def strip(first: int, last: int) -> Image.Image:
        rows = bytes(pixels[first * stride : last * stride])
        return Image.frombuffer(mode, (size[0], last - first), rows, "raw", mode, stride, 1)

    return Opened(
        size,
        size,
        size,
        strip,
        beside.get("icc_profile"),
        parts.exif,
        upright=True,
        problems=_several(len(file)),
    )


def _loaded(image: "ImageFile", form: str, name: str) -> Loss:
    loss = load(image)
    if 1 - loss.part < LEAST_PART:
        raise DamagedPhoto(name, form) if loss.damaged else CutShort(name)
    return loss


def _of_image(image: "ImageFile", exif: bytes, loss: Loss, problems: tuple[str, ...]) -> Opened:
    profile = image.info.get("icc_profile")
    return Opened(image.size, image.size, image.size, _rows_of(image), profile, exif, loss, problems=problems)


def _rows_of(image: "ImageFile") -> Callable[[int, int], "Image.Image"]:
    return lambda first, last: image.crop((0, first, image.width, last))


def _moving(frames: int) -> tuple[str, ...]:
    if frames < 2:
        return ()
    return (f"It is a moving picture of {frames} frames: the first was taken in, the others are left out.",)


def _several(pictures: int) -> tuple[str, ...]:
    if pictures < 2:
        return ()
    return (f"The file holds {pictures} pictures: the main one was taken in, the others are left out.",)
