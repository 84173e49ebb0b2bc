"""Moments of a session as they are typed."""

import pytest

from haywisp.usecases import Refused
from haywisp.usecases.moments import moment_of


@pytest.mark.parametrize(
    ("text", "seconds"), [("", 0), ("0:05", 5), ("12:30", 750), ("1:02:03", 3723), (" 90:00 ", 5400)]
)
def test_moments(text: str, seconds: float) -> None:
    assert moment_of(text) == seconds


@pytest.mark.parametrize("text", ["5", "1:75", "-1:00", "1:2:3:4", "noon"])
def test_what_is_no_moment(text: str) -> None:
    with pytest.raises(Refused, match="no time in the session"):
        moment_of(text)
