"""Moments of a session as they are typed."""

import re

from haywisp.usecases.errors import Refused

MOMENT = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)")


def moment_of(text: str) -> float:
    """Seconds from ``m:ss`` or ``h:mm:ss``; an empty text is the start."""
    if not text.strip():
        return 0.0
    found = MOMENT.fullmatch(text.strip())
    if not found:
        raise Refused(
            f"“{text[:40]}” is no time in the session: write minutes and seconds, such as 12:30, or leave it empty."
        )
    hours, minutes, seconds = (int(part or 0) for part in found.groups())
    return hours * 3600.0 + minutes * 60.0 + seconds
