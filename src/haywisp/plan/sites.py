"""What the limits allow at one place: whether hands may work there, and how deep."""

from haywisp.knowledge import REGION_PARTS, inside
from haywisp.knowledge.types import Structure, Tables, Technique
from haywisp.plan.types import PlanProblem
from haywisp.plan.units import DEEPEST, HEAD, LIGHTEST_DEEP, PRESSURES, STAGE_PRESSURE

HEAD_SHY = "head-shy"  # the key of its reason

Site = tuple[str, str | None]


def name_of(structure: str, tables: Tables) -> str:
    """The name to print."""
    row = tables.structures[structure]
    return row.spoken[0] if row.spoken else row.name


def place(site: Site, tables: Tables) -> str:
    """A site in words: ``left neck``."""
    name = name_of(site[0], tables)
    return f"{site[1]} {name}" if site[1] in ("left", "right") else name


def because_of(key: str, side: str | None, problem: PlanProblem, otherwise: str) -> str:
    """The reason of a limit as ``because of …``, that of this side where one is told."""
    why = problem.why.get(f"{key}:{side}") or problem.why.get(key)
    return f"because of {why}" if why else otherwise


def barred_by(site: Site, problem: PlanProblem, tables: Tables) -> str | None:
    """The id of the excluded structure that bars strokes at a site: its own or its region's; None when free."""
    row = tables.structures[site[0]]
    return next((key for key in (row.id, row.region) if _excluded(key, site[1], problem)), None)


def barred_inside(site: Site, problem: PlanProblem, tables: Tables) -> tuple[str, ...]:
    """Excluded structures within a region and side: strokes keep clear of them, and the region isn't worked whole."""
    return tuple(held for held in _held(tables.structures[site[0]], tables) if _excluded(held, site[1], problem))


def cap_at(site: Site, problem: PlanProblem, tables: Tables) -> tuple[str, str]:
    """The heaviest pressure allowed at a site, and the ``why`` key of what caps it (``pressure`` for everywhere)."""
    row = tables.structures[site[0]]
    cap, key = problem.pressure_cap, "pressure"
    if problem.head_shy and row.region in HEAD:
        cap, key = PRESSURES[0], HEAD_SHY
    touching = _holding(row, tables) | {*_held(row, tables)}
    for (structure, side), pressure in sorted(problem.caps.items(), key=str):
        touches = structure in touching
        if touches and _meets(side, site[1]) and PRESSURES.index(pressure) < PRESSURES.index(cap):
            cap, key = pressure, structure
    return cap, key


def usual_pressure(technique: Technique, row: Structure) -> str:
    """The pressure that a technique is planned with on a structure where nothing caps it."""
    deepest = [DEEPEST[key] for key in (row.id, row.region) if key in DEEPEST]
    stage = STAGE_PRESSURE.get(technique.stage, PRESSURES[0])
    return min(technique.deepest, stage, *deepest, key=PRESSURES.index)


def pressure_for(technique: Technique, row: Structure, cap: str) -> str | None:
    """The pressure under a cap; None where the cap makes the technique pointless."""
    if technique.stage == "deep" and PRESSURES.index(cap) < PRESSURES.index(LIGHTEST_DEEP):
        return None
    return min(usual_pressure(technique, row), cap, key=PRESSURES.index)


def across(side: str | None) -> str | None:
    """The other of two sides; None for the midline and for both."""
    return {"left": "right", "right": "left"}.get(side or "")


def _meets(one: str | None, other: str | None) -> bool:
    return one not in ("left", "right") or other not in ("left", "right") or one == other


def _excluded(structure: str, side: str | None, problem: PlanProblem) -> bool:
    return any(barred == structure and _meets(barred_side, side) for barred, barred_side in problem.excluded)


def _held(row: Structure, tables: Tables) -> tuple[str, ...]:
    """What lies inside a region, down to the muscles of its parts; nothing for a muscle."""
    return inside(row.id, tables)[1:] if row.id == row.region else ()


def _holding(row: Structure, tables: Tables) -> set[str]:
    """The structure, its region, and the wider regions that either lies in."""
    return {row.id, row.region, *(wider for wider in REGION_PARTS if row.id in inside(wider, tables))}
