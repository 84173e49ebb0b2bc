"""The reliability of fitted confidence as a picture: how often entries of each tenth were right, drawn as SVG."""

from collections.abc import Mapping, Sequence
from html import escape

BINS = 10
PANEL, GAP, LEFT, TOP, BELOW = 210, 44, 46, 40, 66
INK, SOFT, LINE, FILL, DOT = "#26302b", "#5d6a63", "#d5dcd7", "#bcd3c6", "#1f6f54"
LEAST = 5


def bins_of(given: Sequence[float], right: Sequence[bool]) -> list[tuple[int, float, float]]:
    """For each tenth: how many, the mean probability, and the share that was right."""
    rows = []
    for number in range(BINS):
        inside = [(p, r) for p, r in zip(given, right, strict=True) if min(int(p * BINS), BINS - 1) == number]
        count = len(inside)
        mean = sum(p for p, _ in inside) / count if count else 0.0
        share = sum(r for _, r in inside) / count if count else 0.0
        rows.append((count, mean, share))
    return rows


def drawn(panels: Mapping[str, tuple[Sequence[float], Sequence[bool]]], title: str) -> str:
    """One panel for each sort of entry; dots of few entries are hollow, bars tell how many there are."""
    width = LEFT + len(panels) * (PANEL + GAP)
    height = TOP + PANEL + BELOW
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" font-family="sans-serif" '
        f'role="img" aria-label="{escape(title)}">',
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
    ]
    for place, (name, (given, right)) in enumerate(panels.items()):
        parts += _panel(LEFT + place * (PANEL + GAP), name, bins_of(given, right), len(given))
    parts.append("</svg>")
    return "\n".join(parts) + "\n"


def _panel(left: int, name: str, rows: Sequence[tuple[int, float, float]], count: int) -> list[str]:
    bottom = TOP + PANEL
    most = max((number for number, _, _ in rows), default=1) or 1
    parts = [
        f'<text x="{left}" y="{TOP - 14}" font-size="14" font-weight="600" fill="{INK}">{escape(name)}'
        f'<tspan font-weight="400" fill="{SOFT}"> {count}</tspan></text>',
        f'<rect x="{left}" y="{TOP}" width="{PANEL}" height="{PANEL}" fill="none" stroke="{LINE}"/>',
    ]
    for number, (inside, _, _) in enumerate(rows):
        tall = 44 * inside / most
        at = left + number * PANEL / BINS
        parts.append(
            f'<rect x="{at + 1:.1f}" y="{bottom - tall:.1f}" width="{PANEL / BINS - 2:.1f}" height="{tall:.1f}" '
            f'fill="{FILL}" fill-opacity="0.7"/>'
        )
    parts.append(
        f'<line x1="{left}" y1="{bottom}" x2="{left + PANEL}" y2="{TOP}" stroke="{SOFT}" stroke-dasharray="4 4"/>'
    )
    dots = [(left + mean * PANEL, bottom - share * PANEL, inside) for inside, mean, share in rows if inside]
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y, inside in dots if inside >= LEAST)
    parts.append(f'<polyline points="{path}" fill="none" stroke="{DOT}" stroke-width="2"/>')
    parts += [
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{DOT if inside >= LEAST else "#ffffff"}" stroke="{DOT}"/>'
        for x, y, inside in dots
    ]
    for value in (0, 0.5, 1):
        parts.append(
            f'<text x="{left + value * PANEL:.0f}" y="{bottom + 18}" font-size="12" text-anchor="middle" '
            f'fill="{SOFT}">{value:.0%}</text>'
        )
        parts.append(
            f'<text x="{left - 6}" y="{bottom - value * PANEL + 4:.0f}" font-size="12" text-anchor="end" '
            f'fill="{SOFT}">{value:.0%}</text>'
        )
    parts.append(
        f'<text x="{left + PANEL / 2:.0f}" y="{bottom + 38}" font-size="12" text-anchor="middle" '
        f'fill="{INK}">how sure (cross-validated)</text>'
    )
    parts.append(f'<text x="{left + 8}" y="{TOP + 18}" font-size="12" fill="{INK}">right</text>')
    return parts
