"""What a room that has long work gives: how to find what waits, and how to do it part by part."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

#: Whatever JSON can hold: what parts take and give is kept between them.
Plain = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Order:
    """Something to be worked on, by its id; each time that it is asked for anew, ``attempt`` is one more."""

    subject: str
    attempt: int


class Stopped(Exception):
    """The order is not wanted any more: raised by a part, and no failure."""


@dataclass(frozen=True, slots=True)
class Work:
    """One kind of long work.

    ``waiting`` gives the orders that nobody has begun. ``begin`` gives the parts, ``part`` does one of them, and
    ``end`` is given what all of them gave. Each may run a second time after a crash and must then do no harm.
    ``failed`` is told in a sentence why an order can't go on; a later attempt takes over the parts that are done, and
    what parts gave is kept for it for as long as the subject is ``wanted``.
    """

    name: str
    waiting: Callable[[], Sequence[Order]]
    begin: Callable[[Order], Sequence[Plain]]
    part: Callable[[Order, Plain], Plain]
    end: Callable[[Order, Sequence[Plain]], None]
    failed: Callable[[Order, str], None]
    wanted: Callable[[str], bool]
