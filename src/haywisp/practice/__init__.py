"""Run the practice: who it works for, where and on what terms, the day's round, and who is due for a return."""

from haywisp.practice.consent import CAUTION, agreed, gaps, place_rule
from haywisp.practice.due import due
from haywisp.practice.errors import BadAgreement
from haywisp.practice.rounds import round_of
from haywisp.practice.types import Agreed, Due, Gap, Owner, PlaceRule, Round, Stop, Yard

__all__ = [
    "CAUTION",
    "Agreed",
    "BadAgreement",
    "Due",
    "Gap",
    "Owner",
    "PlaceRule",
    "Round",
    "Stop",
    "Yard",
    "agreed",
    "due",
    "gaps",
    "place_rule",
    "round_of",
]
