"""The drawn horse: its proportions, and every mistake in its file as one clear sentence."""

import re
import shutil
from math import dist
from pathlib import Path

import pytest

from haywisp.knowledge import Figure, KnowledgeFault, load_figure, load_tables
from haywisp.knowledge.loading import DATA

FIGURE = load_figure()
STRUCTURES = load_tables().structures


def side(figure: Figure, name: str) -> tuple[float, float]:
    return figure.landmarks[name].seen("side")


HEAD = dist(side(FIGURE, "poll"), side(FIGURE, "muzzle"))
OUTLINE = FIGURE.body("side").polygon(12)


def heights_at(along: float) -> tuple[float, float]:
    """The upper and lower edge of the body outline at one place along it."""
    ends = [*OUTLINE[1:], OUTLINE[0]]
    cuts = sorted(
        y + (below - y) * (along - x) / (across - x)
        for (x, y), (across, below) in zip(OUTLINE, ends, strict=True)
        if min(x, across) <= along < max(x, across)
    )
    return cuts[0], cuts[1]


def test_height_length_and_depth_are_those_of_a_horse_in_head_lengths() -> None:
    """Common practice among judges and artists, no source: height and length 2.5 heads each, depth at the girth 1."""
    height = 1000 - heights_at(FIGURE.landmarks["withers"].along)[0]
    length = FIGURE.landmarks["point-of-buttock"].along - FIGURE.landmarks["point-of-shoulder"].along
    top, under = heights_at(FIGURE.landmarks["girth"].along)
    assert height / HEAD == pytest.approx(2.5, rel=0.04)
    assert length / HEAD == pytest.approx(2.5, rel=0.04)
    assert (under - top) / HEAD == pytest.approx(1.0, rel=0.2)


def test_withers_and_croup_are_level_and_the_back_is_neither_hollow_nor_roached() -> None:
    """Common practice, no source."""
    withers, croup, back = (
        heights_at(FIGURE.landmarks[name].along)[0] for name in ("withers", "point-of-croup", "back-lowest")
    )
    assert abs(withers - croup) < 20
    assert 25 < back - max(withers, croup) < 60


def test_the_barrel_is_deep_at_the_girth_and_tapers_to_the_flank() -> None:
    depths = [under - top for top, under in map(heights_at, (300, 450, 600, 700))]
    assert depths[-1] < 0.92 * depths[0]
    assert depths == sorted(depths, reverse=True)


def slope(upper: str, lower: str) -> float:
    """Degrees from the horizontal."""
    from math import atan2, degrees

    (a, b), (c, d) = side(FIGURE, upper), side(FIGURE, lower)
    return degrees(atan2(abs(d - b), abs(c - a)))


def test_the_joints_stand_as_those_of_a_square_horse() -> None:
    """Common practice, no source: a sloping shoulder, hoof and pastern alike, hocks under the buttocks."""
    assert 48 <= slope("scapula-front-corner", "shoulder-joint") <= 68
    assert 45 <= slope("fore-coronet", "fore-toe") <= 62
    assert 45 <= slope("hind-coronet", "hind-toe") <= 62
    assert abs(slope("fore-pastern", "fore-coronet") - slope("fore-coronet", "fore-toe")) < 26
    along = {name: FIGURE.landmarks[name].along for name in FIGURE.landmarks}
    assert abs(along["point-of-hock"] - along["point-of-buttock"]) < 30
    assert abs(along["fore-fetlock"] - along["elbow"]) < 30
    assert along["stifle"] < along["hip-joint"] < along["point-of-buttock"]


def test_the_neck_is_about_one_and_a_half_heads() -> None:
    """Common practice among artists, no source."""
    assert dist(side(FIGURE, "poll"), side(FIGURE, "withers")) / HEAD == pytest.approx(1.5, rel=0.1)


def test_every_structure_is_drawn_in_its_layer() -> None:
    assert {shape.structure for shape in FIGURE.shapes} == set(STRUCTURES)
    for shape in FIGURE.shapes:
        assert shape.layer == (STRUCTURES[shape.structure].layer or "regions")


def test_the_horse_is_read_once_and_from_a_kept_copy_alike(tmp_path: Path) -> None:
    assert load_figure() is load_figure()
    kept = load_figure(None, tmp_path)
    assert kept.shapes == load_figure(None, tmp_path).shapes == FIGURE.shapes
    assert list(tmp_path.glob("figure.*.json"))


def test_what_hangs_on_a_landmark_moves_with_it(folder: Path) -> None:
    text = (folder / "figure.toml").read_text("utf-8")
    was = FIGURE.landmarks["point-of-hip"]
    moved = re.sub(r"(?m)^point-of-hip = .*$", f"point-of-hip = [{was.along + 7}, {was.down + 5}, {was.out}]", text)
    (folder / "figure.toml").write_text(moved, "utf-8")
    before, after = (figure.shape("tensor-fasciae-latae", "side") for figure in (FIGURE, load_figure(folder)))
    assert before and after
    shifts = {
        (round(c - a), round(d - b)) for (a, b), (c, d) in zip(before.stroke.points, after.stroke.points, strict=True)
    }
    assert shifts == {(0, 0), (7, 5)}


def test_a_landmark_between_others_moves_with_them(folder: Path) -> None:
    text = (folder / "figure.toml").read_text("utf-8")
    (folder / "figure.toml").write_text(re.sub(r"(?m)^muzzle = .*$", "muzzle = [-540, 40, 0]", text), "utf-8")
    moved = load_figure(folder)
    for name in ("jowl", "eye", "nostril"):
        assert side(moved, name) != side(FIGURE, name)
    # The head turns about the poll as a whole.
    share = dist(side(moved, "poll"), side(moved, "eye")) / dist(side(moved, "poll"), side(moved, "muzzle"))
    assert share == pytest.approx(dist(side(FIGURE, "poll"), side(FIGURE, "eye")) / HEAD)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    return tmp_path


def planted(folder: Path, row: str, found: str, instead: str) -> KnowledgeFault:
    text = (folder / "figure.toml").read_text("utf-8")
    start = text.index(row)
    changed = text[:start] + re.sub(found, lambda _: instead, text[start:], count=1, flags=re.S)
    assert changed != text
    (folder / "figure.toml").write_text(changed, "utf-8")
    with pytest.raises(KnowledgeFault) as fault:
        load_figure(folder)
    assert fault.value.file == "figure.toml"
    return fault.value


SPLENIUS_SIDE = r"side = \[.*?\]"


@pytest.mark.parametrize(
    ("row", "found", "instead", "named", "wrong"),
    [
        ("[superficial.splenius]", r"superficial\.splenius", "superficial.spleen", "spleen", "no structure of this id"),
        (
            "[superficial.splenius]",
            r"superficial\.splenius",
            "deep.splenius",
            "splenius",
            "belongs under 'superficial'",
        ),
        ("[superficial.splenius]", SPLENIUS_SIDE, 'side = ["polk"]', "splenius", "list of 3 texts or more"),
        (
            "[superficial.splenius]",
            SPLENIUS_SIDE,
            'side = ["poll", "withers", "polk 3 4"]',
            "splenius",
            "the landmark 'polk', which is not given",
        ),
        (
            "[superficial.splenius]",
            SPLENIUS_SIDE,
            'side = ["poll", "withers", "poll 3"]',
            "splenius",
            "'poll 3' is no point; write a landmark",
        ),
        (
            "[superficial.splenius]",
            SPLENIUS_SIDE,
            'side = ["poll ^", "poll 41 37 ^", "poll 40 0 ^", "poll 3 40 ^"]',
            "splenius",
            "crosses itself near",
        ),
        (
            "[superficial.splenius]",
            SPLENIUS_SIDE,
            'side = ["poll ^", "poll 40 40 ^", "poll 80 80 ^"]',
            "splenius",
            "has no area",
        ),
        (
            "[superficial.splenius]",
            SPLENIUS_SIDE,
            'side = ["poll ~", "poll 40 40", "poll 80 0"]',
            "splenius",
            "1 of its points for 'side' end the fibres",
        ),
        ("[superficial.splenius]", SPLENIUS_SIDE, 'side = ["poll", "poll", "withers"]', "splenius", "are the same"),
        ("[superficial.splenius]", "above = ", "below = ", "splenius", "a field 'below' that is not known"),
        ("[superficial.gracilis]", "inner = true", "inner = 1", "gracilis", "inner must be true or false"),
        ("[superficial.crest]", r"above = \[", 'above = ["poll -4 3", ', "crest", "only its left half is given"),
        ("[landmarks]", r"withers = \[", 'withers = ["poll", ', "withers", "a landmark is \\[along, down, out\\]"),
        ("[landmarks]", r"poll = \[-296,", 'poll = ["x",', "poll", "'x' must be a number"),
        ("[landmarks]", r"poll = \[", "poll = [nan, 0, 0] #", "poll", "nan must be a number"),
        ("[landmarks]", r'eye = \["poll"', 'eye = ["crown"', "eye", "'crown', which is not given"),
        ("[landmarks]", r"poll = ", "Poll = ", "Poll", "an id in small letters"),
        ("[drawing.body]", 'kind = "body"', 'kind = "skin"', "body", "kind is 'skin' and must be one of"),
        ("[drawing.body]", 'kind = "body"', 'kind = "far"', "drawing", "one part of kind 'body' for the view 'side'"),
        ("[drawing.body]", 'view = "side"', 'view = "behind"', "body", "view is 'behind' and must be one of"),
        ("[landmarks]", r"\[landmarks\]", "[points]", "points", "must be one of: landmarks, drawing"),
    ],
)
def test_a_mistake_is_named(folder: Path, row: str, found: str, instead: str, named: str, wrong: str) -> None:
    fault = planted(folder, row, found, instead)
    assert fault.row == named
    assert re.search(wrong, str(fault))


def test_a_structure_without_a_shape_is_named(folder: Path) -> None:
    fault = planted(folder, "[superficial.splenius]", r"\[superficial\.splenius\].*?\n(?=\n\[)", "")
    assert (fault.row, "has no shape" in str(fault)) == ("splenius", True)


def test_a_missing_file_is_named(folder: Path) -> None:
    (folder / "figure.toml").unlink()
    with pytest.raises(KnowledgeFault, match=r"figure\.toml: the file is missing"):
        load_figure(folder)
