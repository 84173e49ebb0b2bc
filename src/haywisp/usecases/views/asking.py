"""What is asked before anyone touches the horse."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AskedView:
    """A question of today by the flag that a yes raises; ``yes`` is what stands of it at this visit.

    ``group`` is the heading that it stands under, the same for questions that follow one another.
    """

    flag: str
    text: str
    yes: bool
    group: str = ""


@dataclass(frozen=True, slots=True)
class AskPage:
    """Today's questions: those where a yes asks for the vet first, and those where it limits the work.

    ``told`` is the note that was kept of the answers, "" before anyone was asked; ``agreement`` what it says of the
    vet's agreement and the owner's consent.
    """

    vet_first: tuple[AskedView, ...]
    limits: tuple[AskedView, ...]
    told: str
    agreement: str
