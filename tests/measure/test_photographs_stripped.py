"""Nothing beside the pixels is kept: no place, maker's notes, thumbnail, XMP, IPTC, profile or comment."""

import io
from collections.abc import Iterator

import pytest
from photo_files import chunk, heic, jpeg, noise, scene, segment, written
from PIL import Image, ImageCms
from PIL.ExifTags import GPS, IFD

from haywisp.measure import take_in

#: Words that stand in every kind of note of the files below.
SECRET = b"SECRETSECRET"
TEXT = SECRET.decode()
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><a exif:GPSLatitude="' + SECRET + b'"/></x:xmpmeta>'


def secret_exif() -> bytes:
    """Place, maker's note, owner and a thumbnail in EXIF."""
    made = Image.Exif()
    made[0x010F], made[0x013B] = f"maker {TEXT}", f"owner {TEXT}"
    made.get_ifd(IFD.Exif).update({0x927C: b"note " + SECRET, 0x9286: b"ASCII\0\0\0" + SECRET, 0xA431: TEXT})
    made.get_ifd(IFD.GPSInfo).update(
        {
            GPS.GPSLatitudeRef: "N",
            GPS.GPSLatitude: (52.0, 10.0, 21.0),
            GPS.GPSMapDatum: TEXT,
            GPS.GPSAreaInformation: SECRET,
        }
    )
    thumbnail = jpeg(scene((160, 120)), comment=SECRET)
    made.get_ifd(IFD.IFD1).update({0x0201: thumbnail, 0x0202: len(thumbnail), 0x0103: 6})
    return made.tobytes()


def secret_profile() -> bytes:
    """The sRGB profile with other words in its description."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return profile.replace("built-in".encode("utf-16-be"), "SECRETSE".encode("utf-16-be"))


def secret_jpeg() -> bytes:
    data = jpeg(exif=secret_exif(), xmp=XMP, comment=SECRET, icc_profile=secret_profile(), dpi=(301, 302))
    iptc = segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\0\0" + len(SECRET).to_bytes(4, "big") + SECRET)
    others = b"".join(segment(0xE0 + number, SECRET * 3) for number in range(3, 16) if number != 14)
    return data[:2] + iptc + others + segment(0xFE, SECRET) + data[2:] + b"after the end " + SECRET


def secret_png() -> bytes:
    data = written(scene(), "PNG", exif=secret_exif(), icc_profile=secret_profile(), dpi=(301, 302))
    texts = [
        chunk(b"tEXt", b"Comment\0" + SECRET),
        chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0" + XMP),
        chunk(b"tIME", b"\x07\xea\1\2\3\4\5"),
        chunk(b"prVt", SECRET),
    ]
    return data[:33] + b"".join(texts) + data[33:-12] + b"".join(texts) + data[-12:] + SECRET


def secret_heic() -> bytes:
    image = scene()
    image.info |= {"exif": secret_exif(), "xmp": XMP, "icc_profile": secret_profile()}
    return heic(image)


def secret_webp() -> bytes:
    return written(scene(), "WEBP", exif=secret_exif(), xmp=XMP, icc_profile=secret_profile())


FILES = {"JPEG": secret_jpeg(), "PNG": secret_png(), "WebP": secret_webp(), "HEIC": secret_heic()}


def markers(data: bytes) -> Iterator[tuple[int, bytes]]:
    """Every marker of a JPEG file with its body, to the last byte of the file; own walk, by ITU-T T.81."""
    at = 0
    while at < len(data):
        assert data[at] == 0xFF
        marker = data[at + 1]
        at += 2
        size = 0 if marker in {0xD8, 0xD9} else int.from_bytes(data[at : at + 2], "big")
        yield marker, data[at + 2 : at + size]
        at += size
        if marker == 0xDA:
            while data[at] != 0xFF or data[at + 1] == 0x00:
                at += 1


@pytest.mark.parametrize("form", FILES)
def test_the_files_hold_what_must_go(form: str) -> None:
    """Otherwise what follows would prove nothing."""
    assert FILES[form].count(SECRET) >= 5
    assert secret_profile().count("SECRETSE".encode("utf-16-be")) == 1
    if form != "HEIC":
        assert Image.open(io.BytesIO(FILES[form])).getexif().get_ifd(IFD.GPSInfo)[GPS.GPSMapDatum] == TEXT


@pytest.mark.parametrize("form", FILES)
def test_nothing_of_it_is_kept(form: str) -> None:
    photo = take_in(FILES[form], "horse")
    assert (photo.form, photo.problems) == (form, ())
    for data in (photo.picture, photo.preview):
        assert b"SECRET" not in data
        found = list(markers(data))
        assert {marker for marker, _ in found} == {0xD8, 0xE0, 0xDB, 0xC0, 0xC4, 0xDA, 0xD9}
        assert [body for marker, body in found if marker == 0xE0] == [b"JFIF\0\1\1\0\0\1\0\1\0\0"]
        assert found[-1] == (0xD9, b"")


@pytest.mark.parametrize("form", FILES)
def test_a_reader_finds_nothing(form: str) -> None:
    photo = take_in(FILES[form], "horse")
    for data in (photo.picture, photo.preview):
        with Image.open(io.BytesIO(data)) as image:
            assert dict(image.getexif()) == {}
            assert image.getexif().get_ifd(IFD.GPSInfo) == {}
            assert image.get_child_images() == []
            assert set(image.info) == {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_what_is_told_beside_the_picture_holds_no_place() -> None:
    photo = take_in(secret_jpeg(), "horse.jpg")
    told = repr((photo.sizes, photo.camera, photo.form, photo.problems))
    assert TEXT not in told
    assert "52" not in told


def test_the_walk_finds_what_stands_beside_the_pixels() -> None:
    """A walk that is blind would pass everything."""
    found = [marker for marker, _ in markers(jpeg(noise((64, 64)), comment=b"a", exif=secret_exif()))]
    assert {0xFE, 0xE1} <= set(found)
    with pytest.raises(AssertionError):
        list(markers(jpeg() + b"after"))
