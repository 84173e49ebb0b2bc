"""``haywisp visit vet-said`` and ``haywisp visit override``: the vet's answer, and work before there is one."""

from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.opening import opened
from haywisp.commands.output import items, say

if TYPE_CHECKING:
    from haywisp.usecases.views import VetWord


def vet_said(
    context: typer.Context,
    visit: Annotated[str, typer.Argument(help="The start of the visit's id, or a horse's name for its newest visit.")],
    text: Annotated[str, typer.Argument(help="What the vet answered, in words.")],
    wait: Annotated[bool, typer.Option("--wait", help="The vet has bodywork wait.")] = False,
) -> None:
    """Keep what the vet answered; a referral stands until a vet agreed to bodywork."""
    from haywisp.usecases import vet as usecase
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        kept = usecase.vet_said(app, visit_named(app, visit).id, text, agrees=not wait)
    say(f"Kept: {kept.sentence}")


def override(
    context: typer.Context,
    visit: Annotated[str, typer.Argument(help="The start of the visit's id, or a horse's name for its newest visit.")],
    reason: Annotated[str, typer.Argument(help="Why the work goes on all the same, in a sentence.")],
    caution: Annotated[
        list[str] | None,
        typer.Option(metavar="ID", help="Only this caution (`haywisp gate`); repeatable. All that ask unless told."),
    ] = None,
) -> None:
    """Keep why a visit's work goes on although the vet should come first; never against what is absolute.

    It is for this visit alone, holds all work to light pressure, and stands in every document of the visit.
    """
    from haywisp.usecases import overriding
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        kept = overriding.work_against(app, visit_named(app, visit).id, reason, caution or ())
    say(f"Kept: {kept.sentence}")


def print_vet_said(words: "tuple[VetWord, ...]") -> None:
    """What the vet answered, newest first."""
    if words:
        say("What the vet answered:")
        items(f"{word.day}{'' if word.agrees else ' (to wait)'}: “{word.text}”" for word in words)
