"""What a file is, told from its first bytes and never from its name."""

from collections.abc import Iterator

from haywisp.measure.photographs.errors import FORMS, CutShort, DamagedPhoto, NotAPhoto
from haywisp.measure.photographs.limits import MOST_PARTS

HEIF_BRANDS = frozenset({b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"mif2", b"msf1"})
AVIF_BRANDS = frozenset({b"avif", b"avis"})
AS_JPEG = "Export it as a JPEG and give that."
STILL = "Take a still picture from it, as a JPEG, and give that."
PHOTO = f"Give the photograph itself ({FORMS})."
RAW = "a camera's raw file or a TIFF"
#: Beginnings of what is not read, what to call it and what to do.
OTHERS = (
    (b"GIF8", "a GIF", AS_JPEG),
    (b"BM", "a BMP picture", AS_JPEG),
    (b"II*\0", RAW, AS_JPEG),
    (b"MM\0*", RAW, AS_JPEG),
    (b"IIRO", RAW, AS_JPEG),
    (b"IIU\0", RAW, AS_JPEG),
    (b"FUJIFILMCCD-RAW", RAW, AS_JPEG),
    (b"8BPS", "a picture in layers", AS_JPEG),
    (b"\0\0\0\x0cjP  ", "a JPEG 2000", AS_JPEG),
    (b"\0\0\0\x0cJXL ", "a JPEG XL", AS_JPEG),
    (b"\xff\x0a", "a JPEG XL", AS_JPEG),
    (b"\x1aE\xdf\xa3", "a video", STILL),
    (b"RIFF", "a video or a sound recording", STILL),
    (b"PK\x03\x04", "a packed folder or an office document", f"Unpack it. {PHOTO}"),
)
HEAD = 1024


def form_of(data: bytes, name: str) -> str:
    """``JPEG``, ``PNG``, ``WebP`` or ``HEIC``; a :class:`NotAPhoto` that names any other form."""
    if data.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return "WebP"
    if data[4:8] == b"ftyp":
        return _of_boxes(data, name)
    for beginning, form, do in OTHERS:
        if data.startswith(beginning):
            raise NotAPhoto(name, form, do)
    raise NotAPhoto(name, *_written(data[:HEAD]))


def _written(head: bytes) -> tuple[str, str]:
    """What to call something that may be text."""
    start = head.removeprefix(b"\xef\xbb\xbf").lstrip().lower()
    if b"%pdf-" in start:
        return "a PDF", "Export the picture in it as a JPEG and give that."
    if b"<svg" in start:
        return "a drawing (SVG)", PHOTO
    if start.startswith((b"<!doctype html", b"<html")):
        return "a page of the web", f"Save the picture on it. {PHOTO}"
    text = head.decode("utf-8", "replace")
    if all(letter.isprintable() or letter in "\r\n\t\f" for letter in text.rstrip("\ufffd")):
        return "text", PHOTO
    return "no picture that is known here", PHOTO


def _of_boxes(data: bytes, name: str) -> str:
    """A file of the ISO base media format (ISO 14496-12): HEIC by its brands and by what it holds."""
    size = int.from_bytes(data[:4], "big")
    brands = [data[8:12], *(data[at : at + 4] for at in range(16, min(size, len(data), HEAD) - 3, 4))]
    if brands[0] in AVIF_BRANDS or (AVIF_BRANDS & set(brands) and not {b"heic", b"heix"} & set(brands)):
        raise NotAPhoto(name, "an AVIF", AS_JPEG)
    if brands[0] == b"crx ":
        raise NotAPhoto(name, "a camera's raw file", AS_JPEG)
    kinds = {kind: data[at : at + 64] for kind, at, _ in boxes(data)}
    if b"moov" in kinds and b"pict" not in kinds.get(b"meta", b""):
        raise NotAPhoto(name, "a video", STILL)
    if not HEIF_BRANDS & set(brands):
        raise NotAPhoto(name, "a video or a sound recording", STILL)
    if b"meta" not in kinds:
        raise CutShort(name, "a HEIC") if boxes_cut(data) else DamagedPhoto(name, "HEIC")
    return "HEIC"


def boxes(data: bytes) -> Iterator[tuple[bytes, int, int]]:
    """Kind, beginning and end of each outermost box, also of one that ends after the file.

    Past :data:`~haywisp.measure.photographs.limits.MOST_PARTS` the rest is told as one box that ends after it.
    """
    at = count = 0
    while at + 8 <= len(data):
        count += 1
        if count > MOST_PARTS:
            yield b"", at, len(data) + 1
            return
        size, start = int.from_bytes(data[at : at + 4], "big"), at + 8
        if size == 1:
            size, start = int.from_bytes(data[at + 8 : at + 16], "big"), at + 16
        end = len(data) if size == 0 else at + size
        yield data[at + 4 : at + 8], start, end
        if end < start:
            return
        at = end


def boxes_cut(data: bytes) -> bool:
    """True when a box ends after the file does."""
    return any(end > len(data) for _, _, end in boxes(data))
