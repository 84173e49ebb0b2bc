"""How findings are shaded on the drawn horse: a ramp for how much, hatching for what."""

import xml.etree.ElementTree as ET

#: Pale to dark in even steps of lightness, in one hue that the tan of the horse does not have: it can be read in all
#: common kinds of colour blindness and in grey (tests/report holds the steps).
RAMP = ("#C6DDEB", "#8BB8D6", "#4A8ABA", "#15568C")
UNSAID = "#E4EBEF"
INK = "#1C2A33"
PAPER = "#FFFFFF"
#: Each kind of finding by its aspect: size of the tile, and its lines as a path; ``dots`` are filled.
HATCHES: dict[str, tuple[int, str, bool]] = {
    "tone": (9, "M-2 2 2 -2M0 9 9 0M7 11 11 7", False),
    "tenderness": (10, "M2.500 1v3M1 2.500h3M7.500 6v3M6 7.500h3", False),
    "development": (9, "M0 4.500H9", False),
    "mobility": (8, "M4 0V8", False),
    "warmth": (12, "M0 4q3 -4 6 0t6 0M0 10q3 -4 6 0t6 0", False),
    "texture": (9, "M2.200 1a1.200 1.200 0 1 0 .01 0zM6.700 5.500a1.200 1.200 0 1 0 .01 0z", True),
    "swelling": (13, "M6.500 2.500a4 4 0 1 0 .01 0z", False),
    "spasm": (10, "M0 3 2.500 0 5 3 7.500 0 10 3M0 8 2.500 5 5 8 7.500 5 10 8", False),
    "symmetry": (10, "M0 3H6M4 8H10", False),
    "skin": (9, "M0 0 9 9M9 0 0 9", False),
}
OTHER = (9, "M-2 7 2 11M0 0 9 9M7 -2 11 2", False)


def step_of(amount: float | None) -> int | None:
    """The step of the ramp, 0 for the least, for an amount from 0 to 1; None where no amount is said."""
    if amount is None:
        return None
    return min(len(RAMP) - 1, max(0, int(amount * len(RAMP))))


def colour_of(amount: float | None) -> str:
    """What a shape is filled with."""
    step = step_of(amount)
    return UNSAID if step is None else RAMP[step]


def line_on(amount: float | None) -> str:
    """``ink`` or ``paper``: hatching is light on the dark end of the ramp."""
    step = step_of(amount)
    return "paper" if step is not None and step >= len(RAMP) - 2 else "ink"


def pattern(kind: str, line: str, prefix: str, scale: float = 1.0) -> ET.Element:
    """The hatching of a kind of finding as an SVG pattern, in dark (``ink``) or light (``paper``) lines."""
    size, path, filled = HATCHES.get(kind, OTHER)
    colour = INK if line == "ink" else PAPER
    tile = ET.Element(
        "pattern",
        {
            "id": f"{prefix}-{kind}-{line}",
            "width": str(size),
            "height": str(size),
            "patternUnits": "userSpaceOnUse",
            "patternTransform": f"scale({scale:g})",
        },
    )
    width = {"fill": colour} if filled else {"fill": "none", "stroke": colour, "stroke-width": "1.3"}
    ET.SubElement(tile, "path", {"d": path, **width})
    return tile
