"""What it means that a verdict of the gate is no looser than another: the property that every gate test relies on."""

from haywisp.findings import GateVerdict

# From the least strict on, and from the lightest on.
STRICTNESS = ("work", "within-limits", "vet-first")
PRESSURES = ("light", "moderate", "firm")


def no_looser(before: GateVerdict, after: GateVerdict) -> None:
    """Assert that nothing which ``before`` forbids is allowed by ``after``, and that no reason is gone."""
    assert STRICTNESS.index(after.verdict) >= STRICTNESS.index(before.verdict)
    assert after.limits.excluded >= before.limits.excluded
    assert after.limits.techniques >= before.limits.techniques
    assert PRESSURES.index(after.limits.pressure_cap) <= PRESSURES.index(before.limits.pressure_cap)
    for site, cap in before.limits.caps.items():
        assert PRESSURES.index(after.limits.caps[site]) <= PRESSURES.index(cap)
    assert {reason.caution for reason in after.reasons} >= {reason.caution for reason in before.reasons}
