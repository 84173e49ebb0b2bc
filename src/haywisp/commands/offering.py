"""After a correction on the command line: how the words that were meant are taught."""

from typing import TYPE_CHECKING

from haywisp.commands.output import items, say

if TYPE_CHECKING:
    from haywisp.usecases.app import App


def say_offers(app: "App", thread: str) -> None:
    """After a correction: how the words that were meant are kept for next time."""
    from haywisp.usecases.teaching import offers

    found = [offer for offer in offers(app, thread) if offer.phrase]
    if found:
        say("To have it heard so from now on:")
        items(
            f'haywisp words teach "{offer.phrase}" {offer.meaning}{" --misheard" if offer.misheard else ""}'
            for offer in found
        )
