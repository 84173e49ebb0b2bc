"""Run the commands that the README shows and put what they print in their place: ``python scripts/readme_outputs.py``.

A block fenced as ``console`` holds lines that start with ``$``, each followed by what it printed. They run in order,
from the README's top to its end, on a new database in a folder of its own; day, ids and width are fixed, so what is
printed changes only when Haywisp does.
"""

import io
import os
import re
import shlex
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout, suppress
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from unittest.mock import patch
from uuid import UUID, uuid5

ROOT = Path(__file__).resolve().parents[1]
README = ROOT / "README.md"
EXAMPLES = Path("docs") / "examples"
BLOCK = re.compile(r"(?<=^```console\n).*?(?=^```$)", re.DOTALL | re.MULTILINE)
NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
WIDTH = "80"


def told(line: str) -> str:
    """What a command line prints: ``haywisp`` or ``cat``, or ``head`` after a bar."""
    words = shlex.split(line)
    if "|" in words:
        first, (head, lines) = words[: words.index("|")], words[words.index("|") + 1 :]
        if head != "head":
            raise ValueError(f"the README may only pipe into head: {line}")
        return "".join(told(shlex.join(first)).splitlines(keepends=True)[: int(lines.lstrip("-"))])
    if words[0] == "cat":
        return Path(words[1]).read_text(encoding="utf-8")
    if words[0] != "haywisp":
        raise ValueError(f"the README may only show haywisp, cat and head: {line}")
    return ran(words)


def ran(words: list[str]) -> str:
    """What ``haywisp`` prints, refusals too, run in this process."""
    from haywisp.cli import main

    with io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True) as screen:
        with (
            patch.object(sys, "argv", words),
            redirect_stdout(screen),
            redirect_stderr(screen),
            suppress(SystemExit),
        ):
            main()
        screen.seek(0)
        return screen.read()


def retold(readme: str, tell: Callable[[str], str] = told) -> str:
    """The README with what each shown command prints now."""
    return BLOCK.sub(lambda block: "".join(_block(block.group(), tell)), readme)


def _block(block: str, tell: Callable[[str], str]) -> Iterator[str]:
    for line in (line for line in block.splitlines() if line.startswith("$ ")):
        printed = "\n".join(row.rstrip() for row in tell(line[2:]).strip("\n").splitlines())
        yield f"{line}\n{printed}\n" if printed else f"{line}\n"


@contextmanager
def new_practice() -> Iterator[None]:
    """An empty database and the examples in a folder of their own, on a fixed day and with fixed ids."""
    from haywisp import bootstrap

    numbers = count(1)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        folder = Path(name)
        shutil.copytree(ROOT / EXAMPLES, folder / EXAMPLES)
        settings = {"HAYWISP_DATABASE": bootstrap.sqlite_url(folder / "haywisp.db"), "COLUMNS": WIDTH}
        with (
            chdir(folder),
            patch.dict(os.environ, settings),
            patch.object(bootstrap, "local_time", lambda: NOW),
            patch.object(bootstrap, "random_id", lambda: uuid5(UUID(int=0), str(next(numbers))).hex),
        ):
            yield


def main() -> None:
    """Rewrite the README."""
    with new_practice():
        text = retold(README.read_text(encoding="utf-8"))
    README.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
