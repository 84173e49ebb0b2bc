"""Any colours of any depth to sRGB of 8 bits a colour, and any size to the one that is kept."""

import io
from math import ceil
from typing import TYPE_CHECKING

from haywisp.measure.photographs.opening import Opened
from haywisp.measure.photographs.sizing import Size

if TYPE_CHECKING:
    from PIL import Image

STRIP_ROWS = 256
WHITE = (255, 255, 255)
#: The colour spaces of profiles (ICC.1) that are understood, and the mode of a picture in each.
MODES = {"RGB": "RGB", "GRAY": "L", "CMYK": "CMYK"}
NO_PROFILE = "Its colour profile can't be used: colours may be a little off."


def scaled(photo: Opened, kept: Size) -> "Image.Image":
    """The picture at the kept size, as its file has it: RGB, L or CMYK, with white where it is transparent.

    By whole steps first, a strip at a time, so that a second copy of its full size is never held.
    """
    from PIL import Image

    width, height = photo.size
    step = max(1, min(width // kept[0], height // kept[1]))
    whole: Image.Image | None = None
    for first in range(0, height, STRIP_ROWS * step):
        strip = flat(photo.strip(first, min(height, first + STRIP_ROWS * step)))
        if whole is None:
            whole = Image.new(strip.mode, (ceil(width / step), ceil(height / step)))
        whole.paste(strip.reduce(step) if step > 1 else strip, (0, first // step))
    assert whole is not None
    inner = (photo.inner[0] / step, photo.inner[1] / step)
    if whole.size == kept and inner == kept:
        return whole
    return whole.resize(kept, Image.Resampling.LANCZOS, (0, 0, *inner))


def flat(image: "Image.Image") -> "Image.Image":
    """A picture of 8 bits a colour without transparency: RGB, L or CMYK."""
    from PIL import Image

    if image.mode.startswith("I;16"):
        import numpy as np

        return Image.fromarray((np.asarray(image) // 257).astype(np.uint8))
    if image.has_transparency_data:
        clear = image.convert("RGBA")
        ground = Image.new("RGB", image.size, WHITE)
        ground.paste(clear, mask=clear.getchannel("A"))
        return ground
    if image.mode in {"RGB", "L", "CMYK"}:
        return image
    return image.convert("L" if image.mode == "1" else "RGB")


def to_srgb(image: "Image.Image", profile: bytes | None) -> tuple["Image.Image", tuple[str, ...]]:
    """The picture in sRGB by its own profile; without one its colours are taken to be sRGB already."""
    from PIL import Image, ImageCms

    if not profile:
        return image.convert("RGB"), ()
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        mode = MODES[source.profile.xcolor_space.strip()]
        if "CMYK" in {mode, image.mode} and mode != image.mode:
            raise ValueError
        converted = ImageCms.profileToProfile(
            image.convert(mode),
            source,
            ImageCms.createProfile("sRGB"),
            ImageCms.Intent.RELATIVE_COLORIMETRIC,
            "RGB",
            flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
        )
    except (ImageCms.PyCMSError, OSError, ValueError, KeyError, TypeError):
        return image.convert("RGB"), (NO_PROFILE,)
    assert isinstance(converted, Image.Image)
    return converted, ()
