"""How much is taken in and how much is kept, each figure with its reason."""

#: Bytes of one file. The finest settings of phones and cameras give 50 to 60 MB (common practice, no source); what is
#: larger is a camera's raw file or no photograph, and the whole file is held in memory while it is read.
MOST_BYTES = 80_000_000

#: Pixels of one picture, by form: what its reader holds in memory for each differs, and a process that takes in any
#: of them is to stay under 600 MB (measured in ``tests/measure/test_photographs_memory.py``).
MOST_PIXELS = {
    # Read at a half, a quarter or an eighth of its size when it is far larger than what is kept: phones reach 200
    # million pixels.
    "JPEG": 250_000_000,
    # All its coefficients are held until the last scan, two bytes each and up to four for every pixel.
    "JPEG in several passes": 50_000_000,
    # Four bytes for each pixel.
    "PNG": 50_000_000,
    # Five to eight bytes for each pixel; a phone's largest is 48 million.
    "HEIC": 50_000_000,
    # Fifteen bytes for each pixel: colours at every pixel, as few cameras write them, or many bits and transparency.
    "HEIC of full colour detail": 25_000_000,
    # Sixteen bytes for each pixel, as an animation is prepared for, and the file three times over.
    "WebP": 16_000_000,
}

#: Passes of one JPEG. Ten are usual; each goes over the whole picture, however few bytes it has.
MOST_SCANS = 100

#: Segments, chunks or boxes that a file is made of: 80 MB in the pieces of 8 kB that some writers make are 10,000.
MOST_PARTS = 50_000

#: The lists of a HEIC, which are read again for each of up to a thousand pictures; a phone's have 4 to 20 kB.
MOST_LISTS_BYTES = 250_000

#: How often the items of a HEIC may claim its bytes: once each is usual, and each claim is read.
MOST_CLAIMED = 2

#: Notes of the camera; a JPEG's can't have more than 64 kB.
MOST_EXIF_BYTES = 1_000_000

#: The longest side of the kept picture: a horse of 2.4 m that fills it has 0.8 mm to a pixel, finer than a hand can
#: place a landmark (own reckoning).
KEPT_LONGEST_PX = 3000
#: Of Pillow's scale to 95; above it files grow fast with nothing to be seen (common practice, no source).
KEPT_QUALITY = 90

PREVIEW_LONGEST_PX = 480
PREVIEW_QUALITY = 80

#: The shorter side of what would be kept; below it a pixel is centimetres of horse (own reckoning).
LEAST_SIDE_PX = 200

#: The part of a cut picture that must be there for it to be of use.
LEAST_PART = 0.5
