"""Help in the words of a person: no types of Python in it."""

import re
from typing import Any

from typer.core import TyperCommand

# What Typer calls an argument that may be repeated; its dots say so already.
PYTHON_TYPES = re.compile(r" <list\[\w+\]>")


class PlainCommand(TyperCommand):
    """A command whose help leaves the types of repeated arguments out."""

    def get_help(self, ctx: Any) -> str:
        """The help text, with blanks where a type was so that its columns stay."""
        return PYTHON_TYPES.sub(lambda found: " " * len(found[0]), super().get_help(ctx))
