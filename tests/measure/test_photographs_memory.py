"""The largest of every form, and what was made to be too large: a process that takes it in stays small.

``HAYWISP_SLOW=1`` adds those that take long to make.
"""

import io
import json
import os
import struct
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from photo_files import box, exif, heic, jpeg, noise, scene, written
from PIL import Image

from haywisp.measure.photographs.limits import MOST_BYTES

#: What a process holds at most while it takes in any one file, its own 30 MB and the file's bytes among it.
MOST_MB = 600
#: Bytes beside the picture, so that a file is as large as may be.
LEFT_OVER = MOST_BYTES - 4_000_000

#: Takes in every file that is named, each in a thread of its own.
CODE = """
import json, re, resource, sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from haywisp.measure import NotTaken, take_in

def most():
    # The most that this process held, in MB; getrusage would count the process that it was forked from.
    status = Path("/proc/self/status")
    told = re.search(r"VmHWM:\\s*(\\d+) kB", status.read_text()) if status.exists() else None
    return int(told[1]) / 1024 if told else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024

def outcome(path):
    try:
        photo = take_in(Path(path), "horse")
        return f"{photo.form} {photo.sizes.original_width}"
    except NotTaken as told:
        return type(told).__name__

with ThreadPoolExecutor() as threads:
    outcomes = set(threads.map(outcome, sys.argv[1:]))
print(json.dumps([*outcomes, most()]))
"""


def flat(mode: str, width: int, height: int) -> Image.Image:
    return Image.new(mode, (width, height), (90, 120, 60, 200)[: len(Image.new(mode, (1, 1)).getbands())])


def fine_heic(bits: str, side: int, chroma: int) -> bytes:
    import pillow_heif

    deep = np.full((side, side, 3), 30_000, np.uint16)
    out = io.BytesIO()
    made = pillow_heif.from_bytes(bits, (side, side), deep.tobytes())
    made.save(out, quality=20, chroma=chroma, enc_params={"preset": "ultrafast"})
    return out.getvalue() + box(b"free", bytes(LEFT_OVER))


def large_webp() -> bytes:
    data = written(flat("RGBA", 4000, 4000), "WEBP", lossless=True, method=0, exif=exif(orientation=1))
    data += b"JUNK" + struct.pack("<I", LEFT_OVER) + bytes(LEFT_OVER)
    return data[:4] + struct.pack("<I", len(data) - 8) + data[8:]


def noisy_png() -> bytes:
    rows = np.zeros((7071, 7071, 4), np.uint8)
    rows[:2500] = np.random.default_rng(1).integers(0, 256, (2500, 7071, 4), np.uint8)
    return written(Image.fromarray(rows), "PNG", compress_level=1)


def heic_of_notes() -> bytes:
    """A hundred notes, each of which claims the same seventy megabytes."""
    import pillow_heif

    file, out = pillow_heif.HeifFile(), io.BytesIO()
    added = file.add_frombytes("RGB", scene().size, scene().tobytes())
    added.info["metadata"] = [{"type": "mime", "content_type": "a/b", "data": bytes(1234)}] * 100
    file.save(out, quality=50)
    claimed = out.getvalue().replace(struct.pack(">I", 1234), struct.pack(">I", LEFT_OVER - 2_000_000))
    return claimed + box(b"free", bytes(LEFT_OVER))


def bomb() -> bytes:
    data = jpeg()
    at = data.index(b"\xff\xc0") + 5
    return data[:at] + struct.pack(">HH", 65_500, 65_500) + data[at + 4 :]


def exif_bomb() -> bytes:
    """Five thousand entries of EXIF that each claim the whole of a large block."""
    entries = b"".join(struct.pack("<HHII", tag, 3, 16_000, 8) for tag in range(1, 5001))
    body = b"Exif\0\0II*\0\x08\0\0\0" + struct.pack("<H", 5000) + entries
    data = jpeg()
    return data[:2] + struct.pack(">BBH", 0xFF, 0xE1, len(body) + 2) + body + data[2:]


TOGETHER = "three large ones at once"
CASES: dict[str, tuple[Callable[[], bytes], str]] = {
    "a HEIC whose hundred notes are all its bytes": (heic_of_notes, "DamagedPhoto"),
    "fifty megabytes of chance": (lambda: jpeg(noise((5200, 3900)), quality=96), "JPEG 5200"),
    "a JPEG of 248 million pixels": (lambda: jpeg(flat("L", 18_000, 13_800)), "JPEG 18000"),
    "the largest JPEG that is not read smaller": (
        lambda: jpeg(flat("RGB", 5990, 5990)) + bytes(LEFT_OVER),
        "JPEG 5990",
    ),
    "a JPEG of four inks in passes": (
        lambda: jpeg(flat("CMYK", 7071, 7071), progressive=True) + bytes(LEFT_OVER),
        "JPEG 7071",
    ),
    TOGETHER: (lambda: jpeg(flat("RGB", 5990, 5990)) + bytes(LEFT_OVER), "JPEG 5990"),
    "four inks in passes, cut": (lambda: jpeg(flat("CMYK", 7071, 7071), progressive=True)[:-20], "JPEG 7071"),
    "a PNG of 50 million pixels": (
        lambda: written(flat("RGBA", 7071, 7071), "PNG", compress_level=1) + bytes(LEFT_OVER),
        "PNG 7071",
    ),
    "a HEIC of 50 million pixels": (
        lambda: heic(flat("RGB", 7071, 7071), quality=20) + box(b"free", bytes(LEFT_OVER)),
        "HEIC 7071",
    ),
    "a WebP of 16 million pixels": (large_webp, "WebP 4000"),
    "more bytes than are read": (lambda: bytes(MOST_BYTES + 1), "TooManyBytes"),
    "a JPEG that says that it has four thousand million": (bomb, "TooManyPixels"),
    "notes that would fill the memory": (exif_bomb, "JPEG 480"),
}
#: Those that take many seconds to make.
SLOW_CASES: dict[str, tuple[Callable[[], bytes], str]] = {
    "a PNG of 50 million pixels, of chance": (noisy_png, "PNG 7071"),
    "a HEIC of 50 million pixels and its transparency": (
        lambda: heic(flat("RGBA", 7071, 7071), quality=20) + box(b"free", bytes(LEFT_OVER)),
        "HEIC 7071",
    ),
    "a HEIC of 50 million pixels of ten bits": (lambda: fine_heic("RGB;16", 7071, 420), "HEIC 7071"),
    "a HEIC of full colour detail": (lambda: fine_heic("RGB;16", 5000, 444), "HEIC 5000"),
    "a HEIC too large": (lambda: heic(flat("RGB", 9000, 8000), quality=20), "TooManyPixels"),
    "a HEIC that hides how large it is": (
        lambda: heic(flat("RGB", 9000, 8000), quality=20).replace(
            struct.pack(">II", 9000, 8000), struct.pack(">II", 640, 480)
        ),
        "DamagedPhoto",
    ),
}
if os.environ.get("HAYWISP_SLOW") == "1":
    CASES |= SLOW_CASES


@pytest.mark.skipif(sys.platform == "win32", reason="the memory of a process is asked for in another way there")
@pytest.mark.parametrize("case", CASES)
def test_memory_is_bounded(case: str, tmp_path: Path) -> None:
    make, outcome = CASES[case]
    source = tmp_path / "horse"
    source.write_bytes(make())
    paths = [str(source)] * (3 if case == TOGETHER else 1)
    done = subprocess.run([sys.executable, "-c", CODE, *paths], capture_output=True, text=True, timeout=300, check=True)
    came, megabytes = json.loads(done.stdout)
    print(f"{case}: {source.stat().st_size / 1e6:.0f} MB in the file, {megabytes:.0f} MB in memory")
    assert came == outcome
    assert megabytes < MOST_MB
