"""Heights in hands: every way they are written, and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.measure import cm_from_hands, hands_from_cm


@pytest.mark.parametrize(
    ("text", "cm"),
    [
        # 15 hands 2 are 62 inches; 62 × 2.54 = 157.48, as measuring pages print it.
        ("15.2hh", 157.48),
        ("15.2 hh", 157.48),
        ("15.2 hands", 157.48),
        ("15,2 Hands high", 157.48),
        ("15 hands 2", 157.48),
        ("15 hands 2 inches", 157.48),
        ("15 hands and 2 inches", 157.48),
        ("15.2½ hh", 158.75),
        ("15.2 1/2hh", 158.75),
        ("14.2hh", 147.32),
        ("16hh", 162.56),
        ("16 h", 162.56),
        ("10h2", 106.68),
    ],
)
def test_hands_are_read(text: str, cm: float) -> None:
    assert cm_from_hands(text) == pytest.approx(cm)


@pytest.mark.parametrize("text", ["15.2", "157", "15.4hh", "15.9 hands", "hh", "", "15.22hh", "tall", "15.2hh or so"])
def test_what_is_no_height_in_hands(text: str) -> None:
    assert cm_from_hands(text) is None


@pytest.mark.parametrize(("cm", "text"), [(157.5, "15.2 hh"), (162.6, "16 hh"), (158.8, "15.2½ hh"), (101.6, "10 hh")])
def test_hands_are_said(cm: float, text: str) -> None:
    assert hands_from_cm(cm) == text


@given(st.integers(8, 20), st.integers(0, 3))
def test_there_and_back(hands: int, inches: int) -> None:
    cm = cm_from_hands(f"{hands}.{inches} hh")
    assert cm is not None
    assert cm_from_hands(hands_from_cm(cm)) == pytest.approx(cm)
