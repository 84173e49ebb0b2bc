"""The rooms import only what the design lets them, and the outside world only through the named doors."""

import ast
import subprocess
import sys
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from architecture_rules import ARROWS, LIBRARIES, broken_imports, module_name, outside_world, room_of, too_long

SOURCE = Path(__file__).resolve().parents[1] / "src"
FILES = sorted((SOURCE / "haywisp").rglob("*.py"))
MODULES = {module_name(path, SOURCE): path for path in FILES}
KNOWN = {"haywisp", *(f"haywisp.{room}" for room in ARROWS), "haywisp.record.types", "haywisp.knowledge.loading"}
HEAVY = (
    "PIL",
    "alembic",
    "av",
    "dbos",
    "faster_whisper",
    "fastapi",
    "jinja2",
    "numpy",
    "pillow_heif",
    "psycopg",
    "scipy",
    "sqlalchemy",
    "starlette",
    "typst",
    "uvicorn",
)


def test_every_import_follows_an_arrow() -> None:
    broken = [
        fault
        for module, path in MODULES.items()
        for fault in broken_imports(path.read_text("utf-8"), module, MODULES, is_package=path.stem == "__init__")
    ]
    assert broken == []


def test_every_room_is_in_the_table() -> None:
    assert {room_of(module) for module in MODULES} - {""} <= set(ARROWS)


def test_the_arrows_make_no_circle() -> None:
    graph = {room: {arrow.split(".")[0] for arrow in arrows if "." not in arrow} for room, arrows in ARROWS.items()}
    order = list(TopologicalSorter(graph).static_order())
    assert order.index("knowledge") < order.index("plan") < order.index("usecases") < order.index("web")


def test_clock_chance_and_environment_only_through_their_doors() -> None:
    assert [fault for module, path in MODULES.items() for fault in outside_world(path.read_text("utf-8"), module)] == []


def test_no_file_is_too_long() -> None:
    assert [fault for module, path in MODULES.items() for fault in too_long(path.read_text("utf-8"), module)] == []


def test_every_module_says_what_it_is_for() -> None:
    assert [
        module for module, path in MODULES.items() if not ast.get_docstring(ast.parse(path.read_text("utf-8"), module))
    ] == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("haywisp.plan.solving", "from haywisp.record.types import Entry"),
        ("haywisp.plan.solving", "import haywisp.store"),
        ("haywisp.plan.solving", "from haywisp import store"),
        ("haywisp.plan.solving", "def solve():\n    from haywisp.usecases import today"),
        ("haywisp.plan.solving", "if TYPE_CHECKING:\n    from haywisp.web import create_app"),
        ("haywisp.plan.solving", "from ..store import open_store"),
        ("haywisp.plan.solving", "from .. import store"),
        ("haywisp.plan.solving", "importlib.import_module('haywisp.store')"),
        ("haywisp.findings.gate", "from haywisp.record import Entry"),
        ("haywisp.findings.gate", "from haywisp.record.entries import accept"),
        ("haywisp.knowledge.loading", "from haywisp.record.types import Entry"),
        ("haywisp.web.pages", "from haywisp.store import open_store"),
        ("haywisp.web.pages", "from haywisp.report import owner_report"),
        ("haywisp.web.pages", "import sqlalchemy"),
        ("haywisp.usecases.said", "from haywisp.web import create_app"),
        ("haywisp.usecases.said", "from sqlalchemy.exc import DBAPIError"),
        ("haywisp.record.entries", "import numpy as np"),
        ("haywisp.exchange.fhir", "import scipy.stats"),
        ("haywisp.store.people", "import fastapi"),
        ("haywisp.usecases.said", "from jinja2 import Template"),
        ("haywisp.web.pages", "import typst"),
        ("haywisp.web.pages", "import requests"),
        ("haywisp.newroom.things", "from haywisp.knowledge import load_tables"),
    ],
)
def test_a_planted_import_is_found(module: str, source: str) -> None:
    faults = broken_imports(source, module, KNOWN)
    assert len(faults) == 1
    assert faults[0].startswith(f"{module}:{source.count(chr(10)) + 1} may not import ")


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("haywisp.plan.solving", "from haywisp.knowledge import load_tables\nfrom haywisp.errors import HaywispError"),
        ("haywisp.plan.solving", "import json, scipy.optimize\nfrom haywisp import __version__\nfrom . import types"),
        ("haywisp.findings.gate", "from haywisp.record.types import Entry\nfrom haywisp.record import types"),
        ("haywisp.findings.gate", "from haywisp.knowledge.loading import load_tables"),
        ("haywisp.store.people", "import sqlalchemy\nfrom haywisp.record.types import Horse"),
        (
            "haywisp.web.pages",
            "from haywisp.usecases.said import said\nfrom haywisp.plan.types import Plan\nimport jinja2",
        ),
        ("haywisp.bootstrap", "from haywisp.store import open_store\nfrom haywisp.usecases.app import App"),
    ],
)
def test_what_the_table_allows_is_let_through(module: str, source: str) -> None:
    assert broken_imports(source, module, KNOWN) == []


def test_a_relative_import_in_a_package_is_read_from_the_package() -> None:
    assert broken_imports("from . import types", "haywisp.plan", KNOWN, is_package=True) == []
    assert broken_imports("from .. import store", "haywisp.plan", KNOWN, is_package=True) != []


@pytest.mark.parametrize(
    "source",
    [
        "from datetime import datetime\nnow = datetime.now()",
        "import datetime as dt\nnow = dt.datetime.utcnow()",
        "from datetime import date as day\ndef f(clock=day.today): ...",
        "import time\nstart = time.monotonic()",
        "from time import time as clock\nstart = clock()",
        "import random\nrandom.seed(1)",
        "import random\nchance = random.Random()",
        "import numpy as np\nchance = np.random.default_rng()",
        "import numpy as np\nnp.random.rand(3)",
        "from uuid import uuid4\nnew = uuid4()",
        "import os\nhome = os.environ['HOME']",
        "from os import getenv\nhome = getenv('HOME')",
        "print('done')",
    ],
)
def test_planted_use_of_the_outside_world_is_found(source: str) -> None:
    assert outside_world(source, "haywisp.plan.solving") != []
    assert outside_world(source, "haywisp.cli") == []


@pytest.mark.parametrize(
    "source",
    [
        "from datetime import datetime\ndef f(now: datetime): return now.time()",
        "def today(app): return app.clock().date()",
        "import os\nname = os.path.join('a', 'b')",
        "import random\ndef f(seed: int) -> random.Random: return random.Random(seed)",
        "import numpy as np\ndef f(seed): return np.random.default_rng(seed)",
        "time = 3.0\nstart = time + 1",
        "def f(entry): return entry.time.real",
    ],
)
def test_what_only_looks_like_the_outside_world_is_let_through(source: str) -> None:
    assert outside_world(source, "haywisp.plan.solving") == []


def test_a_long_file_is_found() -> None:
    assert too_long("a = 1\n" * 400, "haywisp.plan.solving") == []
    assert too_long("a = 1\n" * 401, "haywisp.plan.solving") != []


@pytest.mark.parametrize(
    "module",
    [
        "haywisp.cli",
        "haywisp.bootstrap",
        "haywisp.measure",
        "haywisp.narration.sound",
        "haywisp.store",
        "haywisp.usecases",
    ],
)
def test_heavy_libraries_wait_until_they_are_needed(module: str) -> None:
    code = f"import {module}, sys; print(*sorted(set(sys.modules) & set({HEAVY!r})))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, "", "")


def test_the_table_of_libraries_names_only_rooms_that_there_are() -> None:
    assert {room for rooms in LIBRARIES.values() for room in rooms} <= set(ARROWS)
