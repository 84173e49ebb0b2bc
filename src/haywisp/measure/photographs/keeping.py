"""Taking in a photograph: from the bytes that came to a clean picture that may be kept."""

import contextlib
import ctypes
import hashlib
import io
import threading
import traceback
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

from haywisp.errors import HaywispError
from haywisp.measure.photographs.camera import Exif, read_exif
from haywisp.measure.photographs.colour import scaled, to_srgb
from haywisp.measure.photographs.errors import DamagedPhoto
from haywisp.measure.photographs.fetching import fetched
from haywisp.measure.photographs.forms import form_of
from haywisp.measure.photographs.limits import KEPT_QUALITY, PREVIEW_QUALITY
from haywisp.measure.photographs.opening import opened
from haywisp.measure.photographs.partial import Loss
from haywisp.measure.photographs.sizing import kept_size, preview_size
from haywisp.measure.photographs.types import KeptPhoto, PhotoSizes

if TYPE_CHECKING:
    from PIL import Image

# One picture at a time, so that two that come together don't hold twice the memory; also, the filter of warnings is
# one for all threads.
ONE = threading.Lock()
GREY = (128, 128, 128)
#: Rows above a missing part that scaling has mixed with it.
MIXED_ROWS = 4
#: Where the lower side of the stored picture is once it is upright, by EXIF orientation.
LOWER_SIDE = {1: "lower", 2: "lower", 3: "upper", 4: "upper", 5: "right", 6: "left", 7: "left", 8: "right"}
PARTS = {0.1: "tenth", 0.2: "fifth", 0.25: "quarter", 1 / 3: "third", 0.4: "two fifths", 0.5: "half"}
EDGE = 0.05


def take_in(source: bytes | Path, name: str) -> KeptPhoto:
    """A photograph from its bytes or its path, made safe to keep; ``name`` is only what sentences call it.

    JPEG, HEIC, PNG and WebP, told by content. It comes out upright, in sRGB, at most
    :data:`~haywisp.measure.photographs.limits.KEPT_LONGEST_PX` long, without place, maker's notes or anything else
    beside the pixels. What of it is missing is grey and told in ``problems``. Raises a :class:`NotTaken` whose text
    says why and what to do.
    """
    with ONE, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        data = fetched(source, name)
        form = form_of(data, name)
        try:
            return _kept(form, data, name)
        except HaywispError as told:
            traceback.clear_frames(told.__traceback__)
            raise
        except Exception as fault:
            # The readers are of others' making, and bytes made to harm can make them fail in any way.
            traceback.clear_frames(fault.__traceback__)
            raise DamagedPhoto(name, form) from fault
        finally:
            _give_back()


def _give_back() -> None:
    """Let the system have what the pixels took; glibc keeps hundreds of megabytes for each thread that read one."""
    with contextlib.suppress(AttributeError, OSError, TypeError):
        ctypes.CDLL(None).malloc_trim(0)


def _kept(form: str, data: bytes, name: str) -> KeptPhoto:
    photo = opened(form, data, name)
    exif = read_exif(photo.exif)
    if photo.upright:
        exif = Exif(exif.notes)
    size = kept_size(photo.stored, name)
    image = scaled(photo, size)
    stored, profile, loss, problems = photo.stored, photo.profile, photo.loss, photo.problems
    # Its pixels at full size are let go before others are made.
    del photo
    image, off = to_srgb(image, profile)
    picture = turned(_with_grey(image, loss.part), exif.orientation)
    small = preview_size(picture.size)
    preview = picture.resize(small, reducing_gap=3.0)
    return KeptPhoto(
        jpeg_bytes(picture, KEPT_QUALITY),
        jpeg_bytes(preview, PREVIEW_QUALITY),
        PhotoSizes(*stored, exif.orientation, *picture.size, *small),
        exif.notes,
        form,
        hashlib.sha256(data).hexdigest(),
        len(data),
        (*lost_sentences(loss, exif.orientation), *problems, *off, *exif.problems),
    )


def _with_grey(image: "Image.Image", lost: float) -> "Image.Image":
    if lost:
        first = max(0, int(image.height * (1 - lost)) - MIXED_ROWS)
        image.paste(GREY, (0, first, image.width, image.height))
    return image


def lost_sentences(loss: Loss, orientation: int) -> tuple[str, ...]:
    """What is missing of a picture, on the side where a person sees it."""
    if not loss.cut and not loss.damaged:
        return ()
    what = "cut short" if loss.cut else "damaged"
    if not loss.part:
        return (f"The file is {what}, after the last row of its picture: nothing of it is missing.",)
    side = LOWER_SIDE[orientation]
    if loss.part < EDGE:
        return (f"The file is {what}: a strip at the {side} edge is missing. Copy it again.",)
    part = PARTS[min(PARTS, key=lambda one: abs(one - loss.part))]
    verb = "are" if part == "two fifths" else "is"
    return (f"The file is {what}: about the {side} {part} {verb} missing, and grey. Copy it again.",)


def turned(image: "Image.Image", orientation: int) -> "Image.Image":
    """A stored picture made upright, by its EXIF orientation (1 to 8)."""
    from PIL.Image import Transpose

    ways = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    return image.transpose(ways[orientation]) if orientation in ways else image


def jpeg_bytes(image: "Image.Image", quality: int) -> bytes:
    """A picture as JPEG and nothing beside it; its writer would copy a comment from what it was read with."""
    image.info = {}
    out = io.BytesIO()
    image.save(out, "JPEG", quality=quality)
    return out.getvalue()
