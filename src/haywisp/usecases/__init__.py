"""Verbs that join the rooms inside one unit of work; the command line and the web call the same ones."""

from haywisp.usecases.app import App
from haywisp.usecases.errors import Changed, NotFound, NothingReviewed, Refused, TooLarge

__all__ = ["App", "Changed", "NotFound", "NothingReviewed", "Refused", "TooLarge"]
