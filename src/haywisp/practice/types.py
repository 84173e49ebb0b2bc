"""Who the practice works for and where."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Owner:
    """A client."""

    id: str
    name: str
    phone: str = ""
    email: str = ""
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Yard:
    """A place where horses are kept; an ``isolation`` yard is visited last."""

    id: str
    name: str
    address: str = ""
    isolation: bool = False
    invented: bool = False
