"""Days in words."""

from datetime import date


def day_words(day: date) -> str:
    """``4 March 2026``."""
    return f"{day.day} {day:%B %Y}"
