"""What every command prints with: tables that fit a terminal, JSON, and text without control characters."""

import dataclasses
import json
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import PurePath
from typing import Any

import typer

SHORT_ID = 8
CONTROL = {"Cc", "Cf"}
JSON_OPTION = typer.Option("--json", help="Print JSON instead of text.")


def clean(text: object) -> str:
    """Text without control characters: a name must not move the cursor or change colours."""
    return "".join(
        " " if unicodedata.category(letter) in {"Cc", "Cf"} and letter != "\n" else letter for letter in str(text)
    )


def short(row_id: str) -> str:
    """The start of an id: enough to type."""
    return row_id[:SHORT_ID]


def plain(value: object) -> Any:
    """A view in the types that JSON has."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(item) for item in value]
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, PurePath) else value


def as_json(value: object) -> None:
    typer.echo(json.dumps(plain(value), ensure_ascii=False, indent=2))


def say(text: object = "") -> None:
    """One paragraph, wrapped to the terminal."""
    _console().print(clean(text))


def items(lines: Iterable[object], mark: str = "-") -> None:
    """A list, each line wrapped under itself."""
    from rich.padding import Padding
    from rich.table import Table

    grid = Table.grid(padding=(0, 1))
    for line in lines:
        grid.add_row(mark, clean(line))
    if grid.row_count:
        _console().print(Padding(grid, (0, 0, 0, 1)))


def table(columns: Sequence[str], rows: Iterable[Sequence[object]], empty: str) -> None:
    """Rows under headings; ``empty`` is what to say when there are none."""
    from rich.box import SIMPLE_HEAD
    from rich.table import Table

    grid = Table(box=SIMPLE_HEAD, pad_edge=False, show_edge=False, collapse_padding=True, header_style="bold")
    for column in columns:
        # A word that is longer than its column goes on in the next line: nothing is cut off.
        grid.add_column(column, overflow="fold")
    for row in rows:
        grid.add_row(*(clean("" if cell is None else cell) for cell in row))
    if grid.row_count:
        _console().print(grid)
    else:
        say(empty)


def pairs(rows: Iterable[Sequence[object]]) -> None:
    """Names with what they stand for, without a heading."""
    from rich.table import Table

    grid = Table.grid(padding=(0, 2), pad_edge=True)
    grid.add_column(overflow="fold", max_width=24)
    grid.add_column(overflow="fold")
    for row in rows:
        grid.add_row(*(clean("" if cell is None else cell) for cell in row))
    if grid.row_count:
        _console().print(grid)


def heading(text: str) -> None:
    from rich.text import Text

    console = _console()
    console.print()
    console.print(Text(clean(text), style="bold"))


def _console() -> Any:
    from rich.console import Console

    # What people typed is data: no markup, no emoji codes, no colouring of numbers in it.
    return Console(markup=False, emoji=False, highlight=False)
