"""Whole HTML pages that stand alone in one file: no script, nothing loaded, every word escaped."""

from functools import cache
from typing import Any

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration
from haywisp.report.narrated import narrated
from haywisp.report.owner_pdf import day_words
from haywisp.report.phrases import table
from haywisp.report.timeline import narration_svg
from haywisp.report.types import OwnerReport


def narration_html(narration: Narration, tables: Tables) -> str:
    """What was understood of a narration, with the session drawn over time."""
    language = tables.language.code
    return _filled(
        "narration.html",
        language=language,
        words=table("narrated", language),
        shown=narrated(narration, tables),
        drawing=narration_svg(narration, tables),
    )


def owner_html(report: OwnerReport, language: str = "en") -> str:
    """The owner's report, with the words of the PDF."""
    words = table("owner", language)
    return _filled("owner.html", language=language, words=words, report=report, day=day_words(report, language))


def _filled(name: str, **values: Any) -> str:
    return str(_templates().get_template(name).render(**values))


@cache
def _templates() -> Any:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    loader = PackageLoader("haywisp.report", "templates")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
