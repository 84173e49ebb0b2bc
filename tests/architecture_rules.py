"""Which room may import what, as data; and a reader of source that says where it is broken."""

import ast
import sys
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

PACKAGE = "haywisp"

#: What each room may import of the others: a room, or only its shared types ("room.types").
ARROWS: Mapping[str, frozenset[str]] = {
    "errors": frozenset(),
    "knowledge": frozenset(),
    "jobs": frozenset(),
    "narration": frozenset({"knowledge"}),
    "measure": frozenset({"knowledge"}),
    "record": frozenset({"narration.types", "measure.types"}),
    "findings": frozenset({"record.types", "measure.types", "knowledge"}),
    "plan": frozenset({"findings.types", "knowledge"}),
    "session": frozenset({"plan.types", "record.types", "knowledge"}),
    "progress": frozenset({"session.types", "record.types", "measure.types", "knowledge"}),
    "practice": frozenset({"plan.types", "record.types"}),
    "demo": frozenset({"knowledge.types", "narration.types", "practice.types", "record.types"}),
}
DOMAIN_TYPES = frozenset(
    f"{room}.types"
    for room in ("narration", "measure", "record", "findings", "plan", "session", "progress", "practice")
)
ABOVE = frozenset({*ARROWS, "report", "exchange", "store"})
SHELL = frozenset({"usecases", *(f"{room}.types" for room in ABOVE)})
ARROWS = {
    **ARROWS,
    "report": DOMAIN_TYPES | {"knowledge"},
    "exchange": DOMAIN_TYPES | {"knowledge", "report.types"},
    "store": DOMAIN_TYPES,
    "usecases": ABOVE,
    "web": SHELL,
    "commands": SHELL | {"bootstrap", "demo", "jobs", "web"},
    "cli": SHELL | {"commands", "bootstrap", "web"},
    "bootstrap": ABOVE | {"usecases", "web"},
    "__main__": frozenset({"cli"}),
}
#: Open to every room.
OPEN = frozenset({"errors"})

#: The doors of the libraries: which rooms may import each.
LIBRARIES: Mapping[str, frozenset[str]] = {
    "alembic": frozenset({"store"}),
    "fastapi": frozenset({"bootstrap", "commands", "web"}),
    "av": frozenset({"narration"}),
    "dbos": frozenset({"jobs"}),
    "faster_whisper": frozenset({"narration"}),
    "jellyfish": frozenset({"narration"}),
    "jinja2": frozenset({"report", "web"}),
    "numpy": frozenset({"measure", "narration", "findings", "plan", "session", "progress"}),
    "PIL": frozenset({"measure"}),
    "pillow_heif": frozenset({"measure"}),
    "psycopg": frozenset({"store"}),
    "pydantic": frozenset({"exchange", "web"}),
    "rapidfuzz": frozenset({"narration"}),
    "rich": frozenset({"cli", "commands", "report"}),
    "scipy": frozenset({"measure", "plan", "progress"}),
    "sqlalchemy": frozenset({"store"}),
    "starlette": frozenset({"web"}),
    "typer": frozenset({"cli", "commands"}),
    "typst": frozenset({"report"}),
    "uvicorn": frozenset({"cli", "commands", "web"}),
}

#: The named doors to clock, chance, environment and terminal.
DOORS = frozenset({"bootstrap", "cli", "commands", "web", "__main__"})
OUTSIDE_WORLD = (
    "datetime.date.today",
    "datetime.datetime.now",
    "datetime.datetime.today",
    "datetime.datetime.utcnow",
    "input",
    "locale",
    "numpy.random",
    "os.environ",
    "os.getenv",
    "os.urandom",
    "print",
    "random",
    "secrets",
    "socket",
    "time",
    "urllib.request",
    "uuid.uuid1",
    "uuid.uuid4",
)
#: Sources of chance that are as good as their seed: any use of them is right but making one without a seed.
SEEDED = frozenset({"numpy.random.Generator", "numpy.random.default_rng", "random.Random"})
MOST_LINES = 400


@dataclass(frozen=True)
class Import:
    """One imported module, by its full name, and the line that it is on."""

    name: str
    line: int


def module_name(path: Path, root: Path) -> str:
    """The full name of the module in a file below ``root``, the folder that holds the package."""
    parts = path.relative_to(root).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(module: str) -> str:
    """The room that a module of Haywisp is in; empty for the package itself."""
    return module.split(".")[1] if "." in module else ""


def imports(source: str, module: str, modules: Collection[str], *, is_package: bool = False) -> Iterator[Import]:
    """Every import of a source, those inside functions and under TYPE_CHECKING too.

    ``from a import b`` counts as ``a.b`` where that is a module. Imports by a name in a string count as well.
    """
    for node in ast.walk(ast.parse(source, module)):
        if isinstance(node, ast.Import):
            yield from (Import(alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = _start(node, module, is_package)
            for alias in node.names:
                inner = f"{start}.{alias.name}"
                yield Import(inner if inner in modules else start, node.lineno)
        elif isinstance(node, ast.Call) and _last(node.func) in {"import_module", "__import__"} and node.args:
            first = node.args[0]
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield Import(first.value, node.lineno)


def _start(node: ast.ImportFrom, module: str, is_package: bool) -> str:
    if not node.level:
        return node.module or ""
    parts = module.split(".")
    base = parts[: len(parts) - node.level + (1 if is_package else 0)]
    return ".".join([*base, *([node.module] if node.module else [])])


def _last(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def broken_imports(source: str, module: str, modules: Collection[str], *, is_package: bool = False) -> list[str]:
    """The arrows and doors that a module's imports break, a sentence each."""
    room = room_of(module)
    broken = []
    for one in imports(source, module, modules, is_package=is_package):
        top = one.name.split(".")[0]
        if top == PACKAGE:
            allowed = _allowed_inside(room, one.name)
        elif top in LIBRARIES:
            allowed = room in LIBRARIES[top]
        else:
            allowed = top in sys.stdlib_module_names
        if not allowed:
            broken.append(f"{module}:{one.line} may not import {one.name}")
    return broken


def _allowed_inside(room: str, name: str) -> bool:
    other = room_of(name)
    if other in {"", room} or other in OPEN:
        return True
    allowed = ARROWS.get(room, frozenset())
    return other in allowed or (f"{other}.types" in allowed and name == f"{PACKAGE}.{other}.types")


def outside_world(source: str, module: str) -> list[str]:
    """Where a module outside the named doors reads the clock, chance or the environment, or talks to the terminal."""
    if room_of(module) in DOORS:
        return []
    tree = ast.parse(source, module)
    names = _origins(tree)
    found = {
        f"{module}:{node.lineno} may not use {name}"
        for node in ast.walk(tree)
        for name in _used(node, names)
        if any(name == door or name.startswith(f"{door}.") for door in OUTSIDE_WORLD)
    }
    return sorted(found)


def _used(node: ast.AST, names: Mapping[str, str]) -> list[str]:
    """What a node uses: a full name; a seeded source of chance only where it is made without a seed."""
    if isinstance(node, ast.Name | ast.Attribute):
        name = _full_name(node, names)
        # The "random" inside "random.Random" is a node of its own.
        return [name] if name not in SEEDED and name not in {"random", "numpy.random", "time"} else []
    if isinstance(node, ast.Call) and not node.args and not node.keywords:
        name = _full_name(node.func, names)
        return [name] if name in SEEDED else []
    return []


def _origins(tree: ast.AST) -> dict[str, str]:
    """What each name in a source stands for: imported names, and the built-in ones that matter here."""
    names = {"print": "print", "input": "input"}
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.asname or alias.name.split(".")[0]: _bound(alias) for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names |= {alias.asname or alias.name: f"{node.module}.{alias.name}" for alias in node.names}
    return names


def _bound(alias: ast.alias) -> str:
    return alias.name if alias.asname else alias.name.split(".")[0]


def _full_name(node: ast.expr, names: Mapping[str, str]) -> str:
    if isinstance(node, ast.Attribute):
        start = _full_name(node.value, names)
        return f"{start}.{node.attr}" if start else ""
    return names.get(node.id, "") if isinstance(node, ast.Name) else ""


def too_long(source: str, module: str) -> list[str]:
    """A file that asks to be split."""
    lines = len(source.splitlines())
    return [f"{module} has {lines} lines; {MOST_LINES} is the most"] if lines > MOST_LINES else []
