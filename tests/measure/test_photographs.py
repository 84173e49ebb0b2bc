"""A photograph comes in, in any form and colours, and a clean upright sRGB picture comes out."""

import hashlib
import io
from pathlib import Path

import numpy as np
import pytest
from photo_files import SIZE, apart, exif, heic, jpeg, noise, pixels, scene, segment, written
from PIL import Image, ImageCms, ImageOps

from haywisp.measure import PhotoSizes, take_in


@pytest.mark.parametrize(
    ("form", "data"),
    [
        ("JPEG", jpeg()),
        ("JPEG", jpeg(progressive=True)),
        ("JPEG", b"\xff\xd8" + segment(0xE0, b"JFIF\0\1\1\0\0\1\0\1\0\0") + jpeg()[2:] + b"film after the picture"),
        ("PNG", written(scene(), "PNG")),
        ("PNG", written(scene().quantize(256), "PNG")),
        ("WebP", written(scene(), "WEBP", quality=95)),
        ("WebP", written(scene(), "WEBP", lossless=True)),
        ("HEIC", heic()),
    ],
)
def test_every_form_gives_the_same_picture(form: str, data: bytes) -> None:
    """Within 5 steps of 255 in the mean: a palette of 256 colours and two lossy writers lie between."""
    photo = take_in(data, "horse.txt")
    assert (photo.form, photo.problems) == (form, ())
    assert apart(pixels(photo.picture), scene()) < 5
    assert photo.sizes == PhotoSizes(*SIZE, 1, *SIZE, *SIZE)
    assert (photo.sha256, photo.byte_count) == (hashlib.sha256(data).hexdigest(), len(data))


def test_a_path_and_its_bytes_give_the_same(tmp_path: Path) -> None:
    path = tmp_path / "near side.jpg"
    path.write_bytes(jpeg())
    assert take_in(path, path.name) == take_in(jpeg(), path.name)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_the_picture_is_turned_as_the_reference_turns_it(orientation: int) -> None:
    """Pixel by pixel against Pillow's own ``ImageOps.exif_transpose``, which reads the tag in its own way."""
    data = jpeg(exif=exif(orientation=orientation))
    photo = take_in(data, "horse.jpg")
    right = ImageOps.exif_transpose(Image.open(io.BytesIO(data)))
    assert (photo.sizes.kept_width, photo.sizes.kept_height) == right.size
    assert apart(pixels(photo.picture), right) < 1
    assert photo.sizes.orientation == orientation
    assert photo.problems == ()


@pytest.mark.parametrize("orientation", [3, 6, 8])
@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_other_forms_are_turned_too(form: str, orientation: int) -> None:
    data = written(scene(), form, lossless=True, exif=exif(orientation=orientation))
    assert apart(pixels(take_in(data, "a").picture), ImageOps.exif_transpose(Image.open(io.BytesIO(data)))) < 1


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_heic_is_turned_once(orientation: int) -> None:
    """Its own boxes turn it and its EXIF says so again (ISO 23008-12: the boxes count; from memory)."""
    turned = scene()
    turned.info["exif"] = exif(orientation=orientation)
    photo = take_in(heic(turned), "horse.heic")
    right = ImageOps.exif_transpose(Image.open(io.BytesIO(jpeg(exif=exif(orientation=orientation)))))
    assert apart(pixels(photo.picture), right) < 5
    assert photo.sizes.orientation == 1


def test_a_large_picture_is_kept_smaller() -> None:
    photo = take_in(jpeg(scene((4500, 3000)), exif=exif(orientation=6)), "horse.jpg")
    assert photo.sizes == PhotoSizes(4500, 3000, 6, 2000, 3000, 320, 480)
    assert photo.sizes.scale == pytest.approx(2 / 3)
    assert pixels(photo.picture).shape == (3000, 2000, 3)
    assert pixels(photo.preview).shape == (480, 320, 3)


@pytest.mark.parametrize("size", [(6000, 4500), (7001, 4999), (9001, 1201)])
def test_scaling_moves_nothing(size: tuple[int, int]) -> None:
    """Dark meets light where the mapping says, to a quarter of a kept pixel, whatever the reading was."""
    edge = (round(size[0] * 0.61), round(size[1] * 0.37))
    dark = np.zeros((size[1], size[0]), np.uint8)
    dark[edge[1] :, edge[0] :] = 255
    for data in (jpeg(Image.fromarray(dark)), written(Image.fromarray(dark), "PNG", compress_level=1)):
        photo = take_in(data, "edge")
        light = pixels(photo.picture)[..., 0] / 255
        right, below = photo.sizes.mapped(edge, "original", "kept")
        assert light.shape[1] - light[-1].sum() == pytest.approx(right, abs=0.25)
        assert light.shape[0] - light[:, -1].sum() == pytest.approx(below, abs=0.25)


def test_a_small_picture_is_never_made_larger() -> None:
    sizes = take_in(jpeg(scene((210, 200))), "small.jpg").sizes
    assert (sizes.kept_width, sizes.kept_height, sizes.scale) == (210, 200, 1)


def one_colour(mode: str, colour: object) -> Image.Image:
    return Image.new(mode, SIZE, colour)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("data", "colour"),
    [
        # Ink of a CMYK file without a profile takes its own colour from white (plain reckoning).
        (jpeg(one_colour("CMYK", (255, 0, 0, 0))), (0, 255, 255)),
        (jpeg(one_colour("CMYK", (0, 0, 0, 128))), (127, 127, 127)),
        (jpeg(one_colour("L", 90)), (90, 90, 90)),
        (written(one_colour("1", 1), "PNG"), (255, 255, 255)),
        (written(one_colour("I;16", 200 * 257), "PNG"), (200, 200, 200)),
        (written(one_colour("LA", (40, 255)), "PNG"), (40, 40, 40)),
        # A quarter of red over white: 255, 191, 191.
        (written(one_colour("RGBA", (255, 0, 0, 64)), "PNG"), (255, 191, 191)),
        (written(one_colour("RGBA", (255, 0, 0, 64)), "WEBP", lossless=True), (255, 191, 191)),
        (written(one_colour("RGB", (9, 9, 9)), "PNG", transparency=(9, 9, 9)), (255, 255, 255)),
    ],
)
def test_any_colours_become_rgb(data: bytes, colour: tuple[int, int, int]) -> None:
    assert pixels(take_in(data, "a").picture).mean(axis=(0, 1)) == pytest.approx(colour, abs=2)


def test_four_inks_look_as_another_reader_shows_them() -> None:
    """OpenCV's own way from CMYK without a profile, within 3 steps of 255 in the mean."""
    cv2 = pytest.importorskip("cv2")
    data = jpeg(scene().convert("CMYK"))
    other = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)[..., ::-1]
    assert apart(pixels(take_in(data, "a.jpg").picture), other) < 3


def test_a_palette_with_a_clear_colour_is_laid_on_white() -> None:
    image = one_colour("P", 1)
    image.putpalette([10, 20, 30, 200, 100, 50])
    image.paste(0, (0, 0, SIZE[0], SIZE[1] // 2))
    kept = pixels(take_in(written(image, "PNG", transparency=0), "a").picture)
    assert kept[10, 10] == pytest.approx((255, 255, 255), abs=2)
    assert kept[-10, 10] == pytest.approx((200, 100, 50), abs=2)


def test_sixteen_bits_a_colour_become_eight() -> None:
    """The file is written by OpenCV, which keeps all sixteen bits."""
    cv2 = pytest.importorskip("cv2")
    deep = np.full((300, 300, 3), (30 * 257, 60 * 257, 90 * 257), np.uint16)
    data = cv2.imencode(".png", deep)[1].tobytes()
    assert data[24] == 16
    assert pixels(take_in(data, "a").picture).mean(axis=(0, 1)) == pytest.approx((90, 60, 30), abs=1.5)


def ten_bit_heic() -> bytes:
    import pillow_heif

    deep = np.full((300, 300, 3), (200 * 257, 100 * 257, 50 * 257), np.uint16)
    out = io.BytesIO()
    pillow_heif.from_bytes("RGB;16", (300, 300), deep.tobytes()).save(out, quality=95)
    return out.getvalue()


def test_a_heic_of_ten_bits_becomes_eight() -> None:
    assert pixels(take_in(ten_bit_heic(), "a").picture).mean(axis=(0, 1)) == pytest.approx((200, 100, 50), abs=3)


def swapped_profile() -> bytes:
    """The sRGB profile with the primaries of red and green exchanged: its red is what sRGB calls green."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    at = {bytes(profile[i : i + 4]): i for i in range(132, 132 + 12 * int.from_bytes(profile[128:132], "big"), 12)}
    red, green = at[b"rXYZ"], at[b"gXYZ"]
    profile[red + 4 : red + 12], profile[green + 4 : green + 12] = (
        profile[green + 4 : green + 12],
        profile[red + 4 : red + 12],
    )
    return bytes(profile)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_an_embedded_profile_is_followed(form: str) -> None:
    data = written(one_colour("RGB", (250, 10, 20)), form, quality=95, icc_profile=swapped_profile())
    assert pixels(take_in(data, "a").picture).mean(axis=(0, 1)) == pytest.approx((10, 250, 20), abs=4)


def test_the_profile_of_a_heic_is_followed() -> None:
    image = one_colour("RGB", (250, 10, 20))
    image.info["icc_profile"] = swapped_profile()
    assert pixels(take_in(heic(image), "a").picture).mean(axis=(0, 1)) == pytest.approx((10, 250, 20), abs=6)


@pytest.mark.parametrize("profile", [b"no profile", ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()])
def test_a_profile_that_is_none_is_told_and_the_colours_stay(profile: bytes) -> None:
    photo = take_in(jpeg(icc_profile=profile), "a.jpg")
    assert photo.problems == ("Its colour profile can't be used: colours may be a little off.",)
    assert apart(pixels(photo.picture), scene()) < 2


def test_the_profile_of_other_colours_is_told() -> None:
    photo = take_in(jpeg(one_colour("CMYK", (0, 255, 0, 0)), icc_profile=swapped_profile()), "a.jpg")
    assert len(photo.problems) == 1
    assert pixels(photo.picture).mean(axis=(0, 1)) == pytest.approx((255, 0, 255), abs=2)


def test_a_grey_picture_with_a_profile_of_three_colours_stays_grey() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    photo = take_in(jpeg(one_colour("L", 90), icc_profile=profile), "a.jpg")
    assert photo.problems == ()
    assert pixels(photo.picture).mean(axis=(0, 1)) == pytest.approx((90, 90, 90), abs=2)


def test_the_same_file_always_gives_the_same_bytes() -> None:
    data = jpeg(noise((400, 300)))
    assert take_in(data, "one") == take_in(data, "two")
