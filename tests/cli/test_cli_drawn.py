"""``haywisp visit drawn``: the drawn horse of a visit as a picture, and what was out of the usual as JSON."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

from told import Shell


def test_the_horse_is_drawn_with_what_was_found(stable: Shell, tmp_path: Path) -> None:
    stable.good(
        "visit", "write", "Bramble", "finding", "structure=splenius", "side=right", "aspect=tone", "value=tight"
    )
    picture = tmp_path / "bramble.svg"
    assert "Wrote" in stable.good("visit", "drawn", "Bramble", "--view", "right", "--out", str(picture))
    assert ET.parse(picture).getroot().tag.endswith("svg")
    assert "Right splenius: tight" in picture.read_text(encoding="utf-8")
    listed = json.loads(stable.good("visit", "drawn", "Bramble", "--json"))
    assert {
        "words": "Right splenius: tight",
        "structure": "splenius",
        "view": "right",
        "layer": "superficial",
    } in listed


def test_without_a_file_the_picture_is_printed(stable: Shell) -> None:
    assert ET.fromstring(stable.good("visit", "drawn", "Bramble", "--layer", "deep")).tag.endswith("svg")


def test_a_view_or_layer_that_there_is_not_is_refused(stable: Shell, tmp_path: Path) -> None:
    for wrong, says in ((("--view", "below"), "left, right, above"), (("--layer", "bones"), "superficial, deep")):
        outcome = stable("visit", "drawn", "Bramble", *wrong)
        assert (outcome.code, outcome.out) == (2, "")
        assert says in outcome.err
    outcome = stable("visit", "drawn", "Bramble", "--out", str(tmp_path / "none" / "a.svg"))
    assert outcome.code == 2 and "can't be written" in outcome.err
