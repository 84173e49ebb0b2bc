"""What a person can put right in landmarks and known sizes: each class owns its sentence."""

from collections.abc import Sequence

from haywisp.errors import HaywispError
from haywisp.measure.posture.types import Side


class UnknownLandmark(HaywispError):
    """A landmark or line was named that there is none of."""

    def __init__(self, name: str, known: Sequence[str]) -> None:
        super().__init__(f"There is no landmark called {name!r} on a side view: use one of {', '.join(known)}.")


class MissingLandmark(HaywispError):
    """A landmark is absent without which nothing can be measured."""

    def __init__(self, names: Sequence[str], reason: str) -> None:
        super().__init__(
            f"The picture lacks {' and '.join(names)}, {reason}: place {'them' if len(names) > 1 else 'it'}."
        )


class BadPicture(HaywispError):
    """The picture's size or the side of the horse is not one that can be."""

    def __init__(self, width: int, height: int, side: str) -> None:
        super().__init__(
            f"A picture of {width} by {height} pixels of the horse's {side} side is none that can be measured: "
            "give its width and height in pixels, and left or right for the side that is seen."
        )


class OutsidePicture(HaywispError):
    """A landmark lies outside the picture."""

    def __init__(self, name: str, x: float, y: float, width: int, height: int) -> None:
        super().__init__(
            f"{name.capitalize()} at ({x:g}, {y:g}) is outside the picture of {width} by {height} pixels: "
            "place it again."
        )


class SamePlace(HaywispError):
    """Two landmarks lie on the same spot."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(f"{first.capitalize()} and {second} are on the same spot: place one of them again.")


class LineTooShort(HaywispError):
    """A traced line has too few points."""

    def __init__(self, name: str, count: int) -> None:
        super().__init__(f"The line of {name} has {count} different points and needs 3 at least: trace it again.")


class ScaleTooShort(HaywispError):
    """The two ends of the scale stick are too near to each other to give a scale."""

    def __init__(self, length_px: float, least_px: float) -> None:
        super().__init__(
            f"The scale stick is {length_px:.1f} pixels long in the picture and needs {least_px:.0f} at least: "
            "place its two ends again, or leave both out."
        )


class ScaleWithoutLength(HaywispError):
    """The stick's ends are placed and its length is not told, or the other way round."""

    def __init__(self, *, placed: bool) -> None:
        wrong = "its length is not given" if placed else "not both of its ends are placed"
        super().__init__(f"There is a scale stick, but {wrong}: give the length in cm and place both ends, or neither.")


class GroundTooShort(HaywispError):
    """The ground line is too short to tell which way is level."""

    def __init__(self, share: float, least: float) -> None:
        super().__init__(
            f"The ground line is {share:.2f} times as long as the withers are high and needs {least:g} times at least: "
            "place its two points further apart, before the forefeet and behind the hind feet."
        )


class GroundTooSteep(HaywispError):
    """The ground line is so steep that the picture must lie on its side."""

    def __init__(self, degrees: float, most: float) -> None:
        super().__init__(
            f"The ground line is tilted by {degrees:.0f}° and may be by {most:.0f}° at most: turn the picture upright, "
            "or place the two ground points again."
        )


class WrongWayRound(HaywispError):
    """The landmarks run the other way than on the side that is said to be seen."""

    def __init__(self, front: str, behind: str, side: Side) -> None:
        super().__init__(
            f"On the {side} side of a horse {front} is to the {side} of {behind}, and in this picture it is not: "
            "check which side is seen and where the two are placed."
        )


class BelowGround(HaywispError):
    """A landmark is below the ground line."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name.capitalize()} is below the ground line: place it or the two ground points again.")


class BadTold(HaywispError):
    """A figure told about the picture that can't be."""

    def __init__(self, name: str, value: float, low: float, high: float, unit: str) -> None:
        super().__init__(f"The {name} of {value:g} {unit} is outside {low:g} to {high:g} {unit}: give it in {unit}.")


class TooFewPlacings(HaywispError):
    """Nothing was placed twice, so nothing tells how far a landmark falls from itself."""

    def __init__(self) -> None:
        super().__init__(
            "No landmark was placed twice in one picture: place the landmarks of at least one picture again, without "
            "looking at the first time."
        )


class DifferentPictures(HaywispError):
    """Repeated placings are not of one picture."""

    def __init__(self) -> None:
        super().__init__(
            "The repeated placings are not of one picture, since its side or size differ: give the placings of each "
            "picture by themselves."
        )
