"""Read the knowledge tables and the words of one language from TOML."""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from haywisp.knowledge.errors import KnowledgeFault
from haywisp.knowledge.flaws import Flaw
from haywisp.knowledge.kept import toml_of
from haywisp.knowledge.rows import row_of
from haywisp.knowledge.scale_types import Scale, VitalSign, WeightFormula
from haywisp.knowledge.types import (
    ActionKind,
    Aspect,
    Caution,
    Exercise,
    Flag,
    Language,
    Pattern,
    Sign,
    Structure,
    Tables,
    Technique,
)
from haywisp.knowledge.validation import flaws_of, formula_flaws

DATA = Path(__file__).parent / "data"
Forms = Mapping[str, list[str]]
Row = TypeVar("Row")
Read = Callable[[Path, str], Mapping[str, object]]


@cache
def load_tables(language: str = "en", folder: Path | None = None, kept_in: Path | None = None) -> Tables:
    """Read and check every table; ``folder`` defaults to the tables that come with Haywisp.

    ``kept_in`` is a folder for copies that are faster to read; nothing is kept without one.

    Raises KnowledgeFault with the file, the row and what is wrong.
    """
    folder = folder or DATA
    read = partial(parsed, kept_in=kept_in)
    words = _language(folder, language, read)
    tables = Tables(
        structures=_spoken(Structure, folder, "structures", words, read),
        techniques=_spoken(Technique, folder, "techniques", words, read),
        signs=table_of(Sign, folder, "signs", read),
        aspects=table_of(Aspect, folder, "aspects", read),
        actions=table_of(ActionKind, folder, "actions", read),
        cautions=table_of(Caution, folder, "cautions", read),
        patterns=table_of(Pattern, folder, "patterns", read),
        exercises=table_of(Exercise, folder, "exercises", read),
        flags=table_of(Flag, folder, "flags", read),
        weight_formulas=table_of(WeightFormula, folder, "weight_formulas", read),
        scales=table_of(Scale, folder, "scales", read),
        vital_signs=table_of(VitalSign, folder, "vital_signs", read),
        language=words,
    )
    _refuse(flaws_of(tables))
    return tables


@cache
def load_weight_formulas(folder: Path | None = None) -> Mapping[str, WeightFormula]:
    """The formulas of body weight alone, checked: one small file, for who needs no other table.

    Raises KnowledgeFault as :func:`load_tables` does.
    """
    table = table_of(WeightFormula, folder or DATA, "weight_formulas", partial(parsed, kept_in=None))
    _refuse(formula_flaws(table))
    return table


def _refuse(flaws: Sequence[Flaw]) -> None:
    if flaws:
        first, more = flaws[0], len(flaws) - 1
        rest = f" ({more} more {'fault follows' if more == 1 else 'faults follow'}.)" if more else ""
        raise KnowledgeFault(first.file, first.row, first.wrong + rest)


def parsed(path: Path, name: str, kept_in: Path | None) -> dict[str, object]:
    """The entries of one TOML file; ``name`` is what a KnowledgeFault calls it."""
    try:
        return toml_of(path.read_bytes(), name, kept_in)
    except FileNotFoundError:
        raise KnowledgeFault(name, "", "the file is missing.") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as wrong:
        raise KnowledgeFault(name, "", f"it is not readable TOML: {wrong}.") from None


def table_of(kind: type[Row], folder: Path, name: str, read: Read) -> Mapping[str, Row]:
    """The typed rows of one table by id, each checked by itself."""
    file = f"{name}.toml"
    raw = read(folder / file, file)
    return MappingProxyType({key: row_of(kind, key, row, file) for key, row in raw.items()})


def _spoken(kind: type[Row], folder: Path, name: str, words: Language, read: Read) -> Mapping[str, Row]:
    """A table whose rows also have spoken forms, taken from the language."""
    file = f"{name}.toml"
    raw = read(folder / file, file)
    forms = _forms(words, name)
    stray = sorted(forms.keys() - raw.keys())
    if stray:
        raise KnowledgeFault(f"{words.code}/{file}", stray[0], f"{file} has no row of this id.")
    return MappingProxyType({key: row_of(kind, key, row, file, spoken=forms.get(key, [])) for key, row in raw.items()})


def _language(folder: Path, code: str, read: Read) -> Language:
    """The words of a language; a missing folder is an empty language for English and a fault for any other."""
    present = sorted(path.name for path in folder.iterdir() if path.is_dir()) if folder.is_dir() else []
    if code not in present and code != "en":
        raise KnowledgeFault(code, "", f"there are no words for this language; there are: {', '.join(present)}.")
    files = sorted((folder / code).glob("*.toml"))
    tables = {path.stem: read(path, f"{code}/{path.name}") for path in files}
    return Language(code=code, tables=MappingProxyType(tables))


def _forms(words: Language, name: str) -> Forms:
    forms = words.tables.get(name, {}).get("forms", {})
    file = f"{words.code}/{name}.toml"
    if not isinstance(forms, dict):
        raise KnowledgeFault(file, "forms", "it must be a table of lists.")
    for key, said in forms.items():
        if not isinstance(said, list) or not all(isinstance(form, str) and form.strip() for form in said):
            raise KnowledgeFault(file, key, "its spoken forms must be a list of texts.")
    return forms
