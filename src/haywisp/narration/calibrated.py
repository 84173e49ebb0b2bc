"""From features to the probability of being right: logistic models, their weights fitted and kept in a table."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import exp
from typing import Any

from haywisp.knowledge import Tables

LEAST, MOST = 0.01, 0.99
FURTHEST = 30.0
# Where a language has no fitted weights: about as often right as a first hearing, and nothing is asked for doubt alone.
UNFITTED_BASE = 1.0


@dataclass(frozen=True)
class Model:
    """The weight of each feature, and that of none."""

    base: float = UNFITTED_BASE
    weights: Mapping[str, float] = field(default_factory=dict)

    def probability(self, evidence: Mapping[str, float]) -> float:
        """How likely it is right, never quite 0 or 1."""
        weights = self.weights
        total = self.base + sum(weights.get(name, 0.0) * value for name, value in evidence.items())
        total = max(-FURTHEST, min(FURTHEST, total))
        return max(LEAST, min(MOST, 1.0 / (1.0 + exp(-total))))


@dataclass(frozen=True)
class Models:
    """The models by sort of entry, and three thresholds of probability.

    An entry that is less likely right than ``ask_below`` carries a question; one below ``keep_above`` is asked about
    and not written down; what was left out is asked about from ``offer_above`` on.
    """

    by_sort: Mapping[str, Model]
    ask_below: float = 0.0
    keep_above: float = 0.0
    offer_above: float = 1.0

    def probability(self, sort: str, evidence: Mapping[str, float]) -> float:
        """How likely an entry of a sort is right."""
        return self.by_sort.get(sort, UNFITTED).probability(evidence)


UNFITTED = Model()


def models_of(tables: Tables) -> Models:
    """The models of the tables' language; without any, all is equally likely and nothing is asked for doubt alone."""
    raw: Mapping[str, Any] = tables.language.tables.get("confidence", {})
    models = {name: Model(row["base"], row["weights"]) for name, row in raw.get("model", {}).items()}
    asking = raw.get("asking", {})
    return Models(models, asking.get("ask_below", 0.0), asking.get("keep_above", 0.0), asking.get("offer_above", 1.0))
