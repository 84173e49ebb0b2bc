"""An invented practice to show the tool with: yards, owners, horses, and a year of visits with their narrations."""

from haywisp.demo.practice import load
from haywisp.demo.types import (
    DemoBooking,
    DemoError,
    DemoHorse,
    DemoOwner,
    DemoOwnWord,
    DemoPractice,
    DemoVisit,
    DemoYard,
)

__all__ = [
    "DemoBooking",
    "DemoError",
    "DemoHorse",
    "DemoOwnWord",
    "DemoOwner",
    "DemoPractice",
    "DemoVisit",
    "DemoYard",
    "load",
]
