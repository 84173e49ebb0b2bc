"""The measured tables: written between their marks, and growth told from sizes and seconds."""

from pathlib import Path

import page
import pytest
from speed import Measured, slope


def test_a_table() -> None:
    assert page.markdown(["", "F1"], [["c", 0.875], ["m", ""]]) == "|  | F1 |\n|---|---:|\n| c | 0.88 |\n| m |  |"


def test_tables_are_written_between_the_marks(tmp_path: Path) -> None:
    readme = tmp_path / "README.md"
    readme.write_text(f"before\n{page.BEGIN}\nold\n{page.END}\nafter\n", encoding="utf-8")
    page.write("new", readme)
    page.write("newest", readme)
    assert readme.read_text(encoding="utf-8") == f"before\n{page.BEGIN}\n\nnewest\n\n{page.END}\nafter\n"


def test_a_page_without_marks_is_left_alone(tmp_path: Path) -> None:
    readme = tmp_path / "README.md"
    readme.write_text("before\n", encoding="utf-8")
    with pytest.raises(ValueError, match="measured: begin"):
        page.write("new", readme)
    assert readme.read_text(encoding="utf-8") == "before\n"


@pytest.mark.parametrize("power", [1.0, 1.5, 2.0])
def test_growth_is_the_exponent(power: float) -> None:
    assert slope([Measured(0.0, words, words**power, 0.0) for words in (100, 400, 1600)]) == pytest.approx(power)


def test_the_page_has_its_marks() -> None:
    text = page.README.read_text(encoding="utf-8")
    assert text.index(page.BEGIN) < text.index(page.END)
