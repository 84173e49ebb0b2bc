"""Headings, wrapped lines and tables as plain text of 80 columns."""

from collections.abc import Sequence

WIDTH = 80


def plain(text: str) -> str:
    """``text`` on one line, without the control characters that a terminal would obey."""
    return " ".join("".join(char if char.isprintable() else " " for char in text).split())


def heading(text: str) -> str:
    """An underlined heading with an empty line before it."""
    return f"\n{underlined(text, '-')}"


def underlined(text: str, line: str) -> str:
    """Wrapped text over a line of its own length."""
    return f"{wrapped(text)}\n{line * min(WIDTH, len(plain(text)))}"


def wrapped(text: str, first: str = "", rest: str | None = None) -> str:
    """``text`` wrapped to the width; ``first`` stands before the first line and ``rest`` before the others."""
    import textwrap

    after = " " * len(first) if rest is None else rest
    return (
        textwrap.fill(plain(text), WIDTH, initial_indent=first, subsequent_indent=after, break_on_hyphens=False)
        or first.rstrip()
    )


def columns(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table whose cells wrap; words of the user are text and never Rich's markup."""
    import io

    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    drawn = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, show_edge=False, header_style="")
    for number, name in enumerate(head):
        drawn.add_column(Text(name), no_wrap=number == 0, overflow="fold")
    for row in rows:
        drawn.add_row(*(Text(plain(cell)) for cell in row))
    out = io.StringIO()
    console = Console(file=out, width=WIDTH, color_system=None, force_terminal=False, legacy_windows=False)
    console.print(drawn)
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines())
