"""Run the practice: who it works for and where, the day's round, and who is due for a return."""

from haywisp.practice.due import due
from haywisp.practice.rounds import round_of
from haywisp.practice.types import Due, Owner, Round, Stop, Yard

__all__ = ["Due", "Owner", "Round", "Stop", "Yard", "due", "round_of"]
