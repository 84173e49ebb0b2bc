"""Long work off the request path, in parts that are each kept: a worker that dies goes on at the part it was at."""

from haywisp.jobs.hands import Hands
from haywisp.jobs.types import Order, Plain, Stopped, Work
from haywisp.jobs.working import work_off

__all__ = ["Hands", "Order", "Plain", "Stopped", "Work", "work_off"]
