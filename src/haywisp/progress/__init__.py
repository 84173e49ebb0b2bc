"""See change from visit to visit: what was recorded, and no claim beyond it."""

from haywisp.progress.change import strands
from haywisp.progress.types import Strand

__all__ = ["Strand", "strands"]
