"""Each mistake that is planted in a table is found, with its file, its row and what is wrong."""

import re
import shutil
from pathlib import Path

import pytest

from haywisp.knowledge import KnowledgeFault, load_tables
from haywisp.knowledge.loading import DATA
from haywisp.knowledge.validation import flaws_of

# file, row, pattern of what stands in that row, what is planted instead, what the fault says
PLANTED = [
    ("structures", "splenius", 'source = ".*"', 'source = " "', "source is empty"),
    ("structures", "splenius", 'name = "Splenius"', 'name = ""', "name is empty"),
    ("structures", "splenius", "paired = true", 'paired = "yes"', "'paired' that must be true or false"),
    ("structures", "splenius", "paired = true\n", "", "lacks the field 'paired'"),
    ("structures", "splenius", "paired = true", "pairde = true", "'pairde' that is not known"),
    ("structures", "splenius", "paired = true", 'id = "neck"\npaired = true', "'id' is not given here"),
    ("structures", "splenius", "paired = true", "spoken = []\npaired = true", "'spoken' is not given here"),
    ("structures", "splenius", 'region = "neck"', 'region = "nek"', "no region of this table"),
    ("structures", "splenius", 'region = "neck"', 'region = "masseter"', "no region of this table"),
    ("structures", "splenius", 'kind = "muscle"', 'kind = "bone"', "kind is 'bone'"),
    ("structures", "splenius", 'group = "head-and-neck"', 'group = "head"', "group is 'head'"),
    ("structures", "splenius", 'group = "head-and-neck"', 'group = "regions"', "only regions belong"),
    ("structures", "splenius", 'layer = "superficial"', 'layer = ""', "layer is ''"),
    ("structures", "splenius", 'nerve = ".*"', 'nerve = ""', "nerve is empty"),
    ("structures", "splenius", 'neighbours = \\["brachiocephalicus", ', "neighbours = [", "does not name it back"),
    ("structures", "splenius", "neighbours = \\[", 'neighbours = ["spleen", ', "neighbours names 'spleen'"),
    ("structures", "splenius", "neighbours = \\[", 'neighbours = ["splenius", ', "its own neighbour"),
    ("structures", "splenius", "neighbours = \\[", "neighbours = [4, ", "must be text"),
    ("structures", "neck", 'region = "neck"', 'region = "poll"', "a region holds itself"),
    ("techniques", "kneading", 'stage = "preparing"', 'stage = "middle"', "stage is 'middle'"),
    ("techniques", "kneading", 'deepest = "firm"', 'deepest = "hard"', "deepest is 'hard'"),
    ("techniques", "kneading", 'needs = \\["opening"\\]', 'needs = ["warm-up"]', "needs names 'warm-up'"),
    ("techniques", "kneading", "minutes_per_pass = .*", "minutes_per_pass = 0", "minutes_per_pass is 0"),
    ("techniques", "kneading", "minutes_per_pass = .*", 'minutes_per_pass = "1"', "must be a number"),
    ("techniques", "kneading", "thumb = 0.5", "thumb = 1.5", "load of thumb is 1.5"),
    ("techniques", "kneading", "thumb = 0.5", "toe = 0.5", "loads names 'toe'"),
    ("techniques", "kneading", "thumb = 0.5", 'thumb = "much"', "must be a number"),
    ("techniques", "kneading", 'never = \\["poll"', 'never = ["pole"', "never names 'pole'"),
    ("techniques", "kneading", 'suits = \\["jaw"', 'suits = ["jew"', "suits names 'jew'"),
    ("techniques", "kneading", '"tone:tight" = 0.6', '"tone:loud" = 0.6', "value 'loud', which tone can't take"),
    ("techniques", "kneading", '"tone:tight" = 0.6', '"tonus:tight" = 0.6', "aspect 'tonus'"),
    ("techniques", "kneading", '"tone:tight" = 0.6', '"tone" = 0.6', "write it as aspect:value"),
    ("techniques", "kneading", '"tone:tight" = 0.6', '"tone:tight" = 6', "from 0 to 1"),
    ("techniques", "stroking", 'stage = "closing"', 'stage = "opening"', "no closing technique fits it"),
    ("techniques", "effleurage", "never = \\[\\]", 'never = ["tail"]', "no opening technique fits it"),
    ("signs", "yawn", 'direction = "settling"', 'direction = "sleepy"', "direction is 'sleepy'"),
    ("signs", "yawn", "weight = .*", "weight = -1", "weight is -1"),
    ("signs", "yawn", "half_life_s = .*", "half_life_s = 0", "half_life_s is 0"),
    ("aspects", "tone", 'usual = "normal"', 'usual = "fine"', "usual is 'fine'"),
    ("aspects", "spasm", "values = .*", 'values = ["present", "absent", "absent"]', "two or more, each once"),
    ("actions", "recheck", 'wording = ".*"', 'wording = ""', "wording is empty"),
    ("cautions", "fever", 'verdict = "vet-first"', 'verdict = "maybe"', "verdict is 'maybe'"),
    (
        "cautions",
        "fever",
        'verdict = "vet-first"',
        'verdict = "within-limits"',
        "only a vet-first rule can be absolute",
    ),
    ("cautions", "fever", 'id = "fever"', 'id = "feaver"', "names 'feaver'"),
    ("cautions", "fever", 'kind = "flag"', 'kind = "rumour"', "trigger's kind is 'rumour'"),
    ("cautions", "fever", 'site = "body"', 'site = "all"', "site is 'all'"),
    ("cautions", "fever", "triggers = \\[[^\\]]*\\]", "triggers = []", "it has no triggers"),
    ("cautions", "fever", "triggers = \\[[^\\]]*\\]", "triggers = [3]", "must be a list of inline tables"),
    ("cautions", "fever", 'owner_wording = ".*"', 'owner_wording = ""', "owner_wording is empty"),
    ("cautions", "heat", 'pressure_cap = "light"', 'pressure_cap = ""', "needs a pressure_cap"),
    ("cautions", "heat", 'pressure_cap = "light"', 'pressure_cap = "firm"', "pressure_cap is 'firm'"),
    ("cautions", "heat", 'techniques = \\["warmth"\\]', 'techniques = ["heating"]', "techniques names 'heating'"),
    ("cautions", "heat", 'value = "warm"', 'value = "hot"', "value 'hot', which warmth can't take"),
    ("cautions", "heat", 'value = "warm"', 'valeu = "warm"', "'valeu' that is not known"),
    ("cautions", "heat", 'aspect = "warmth", value = "warm"', 'structures = ["nek"]', "a trigger names 'nek'"),
    ("cautions", "heat", ', aspect = "warmth", value = "warm"', "", "must name an aspect or structures"),
    ("cautions", "heat", 'site = "found-cap"', 'all_triggers = true\nsite = "found-cap"', "two triggers or more"),
    ("cautions", "kick-threat", 'site = "none"', 'site = "found-cap"', "nothing else has a place"),
    ("cautions", "left-alone", 'site = "none"', 'site = "found"', "needs a finding among its triggers"),
    ("patterns", "weak-trunk", "prior = .*", "prior = 1", "prior is 1"),
    ("patterns", "weak-trunk", 'call = ""', 'call = "healer"', "call is 'healer'"),
    ("patterns", "weak-trunk", "weight = 1.2", "weight = 12", "weight of evidence is 12"),
    ("patterns", "weak-trunk", "weight = 1.2", "weight = 0", "weight 0 says nothing"),
    ("patterns", "weak-trunk", 'aspect = "tone"', 'aspect = "tonus"', "aspect 'tonus'"),
    ("patterns", "weak-trunk", 'structures = \\["rectus-abdominis"', 'structures = ["rectus"', "names 'rectus'"),
    ("patterns", "weak-trunk", "evidence = \\[\n(.*\n)*?\\]", "evidence = []", "no evidence speaks for it"),
    ("exercises", "backing", "repetitions = 5", "repetitions = 0", "repetitions is 0"),
    ("exercises", "backing", "repetitions = 5", "repetitions = 5.5", "must be a whole number"),
    ("exercises", "backing", "days_per_week = 3", "days_per_week = 8", "days_per_week is 8"),
    ("exercises", "backing", 'never = ".*"', 'never = ""', "never is empty"),
    ("exercises", "backing", 'action = ".*"', 'action = "gallop"', "action is 'gallop'"),
    ("exercises", "backing", 'suits = \\["hindquarters"', 'suits = ["hind"', "suits names 'hind'"),
    ("flags", "ppid", 'asks = ".*"', 'asks = ""', "asks is empty"),
    ("flags", "ppid", 'group = ".*"', 'group = "old"', "group is 'old'"),
    ("cautions", "heat", "absolute = false", "absolute = false\nvet_alone = true", "can be the vet's alone"),
    ("cautions", "fever", "absolute = true", "absolute = true\nvet_alone = true", "can be the vet's alone"),
    (
        "flags",
        "ppid",
        "^",
        '[bored]\nname = "Bored"\nasks = "?"\nlasting = true\nsource = "x"\ngroup = "today"\n\n',
        "no caution reads it",
    ),
    ("weight_formulas", "carroll-huntington", 'gives = "weight"', 'gives = "height"', "gives is 'height'"),
    ("weight_formulas", "carroll-huntington", 'length_unit = "cm"', 'length_unit = "mm"', "length_unit is 'mm'"),
    ("weight_formulas", "carroll-huntington", 'weight_unit = "kg"', 'weight_unit = "st"', "weight_unit is 'st'"),
    ("weight_formulas", "carroll-huntington", "divisor = 11900", "divisor = 0", "must be more than 0"),
    ("weight_formulas", "carroll-huntington", "girth = 2", "grith = 2", "a term names 'grith'"),
    ("weight_formulas", "carroll-huntington", "girth = 2", "girth = -2", "powers above 0"),
    ("weight_formulas", "carroll-huntington", "terms = \\[\n.*\n\\]", "terms = []", "it has no terms"),
    ("weight_formulas", "carroll-huntington", 'status = "verified"', 'status = "sure"', "status is 'sure'"),
    ("weight_formulas", "carroll-huntington", 'population = ".*"', 'population = ""', "population is empty"),
    ("weight_formulas", "catalano-draft", "error = 28", "error = 0", "leave it out where none is published"),
    ("weight_formulas", "catalano-draft", "error = 28", 'error = "?"', "'error' that must be a number"),
    ("weight_formulas", "catalano-draft", '"draft"', '"cob"', "horse_types names 'cob'"),
    ("weight_formulas", "staniar-thoroughbred", "to_years = 2", "to_years = 0", "more than from_years"),
    ("weight_formulas", "staniar-thoroughbred", "at_least = 0.27", "at_least = 0", "pieces must rise"),
    ("weight_formulas", "staniar-thoroughbred", "at_least = 0,", "at_least = 0.1,", "must begin at 0"),
    ("weight_formulas", "staniar-thoroughbred", "slope = 984", "slope = 0", "slope of a piece"),
    ("scales", "body-condition", "maximum = 9", "maximum = 1", "less than its maximum"),
    ("scales", "body-condition", "step = 0.5", "step = 0.3", "part the scale evenly"),
    ("scales", "body-condition", 'combine = "mean"', 'combine = "middle"', "combine is 'middle'"),
    ("scales", "body-condition", "part_maximum = 9", "part_maximum = 5", "a mean needs parts"),
    ("scales", "body-condition", "value = 9", "value = 10", "a level is 10"),
    ("scales", "body-condition", "value = 9", "value = 8", "levels must be given once"),
    ("scales", "body-condition", '"withers"', '"neck"', "parts must be named once"),
    ("scales", "body-condition", "at_least = 7", "at_least = 4", "bands must rise"),
    ("scales", "body-condition", "at_least = 8", "at_least = 18", "a band is 18"),
    ("scales", "horse-grimace", "part_maximum = 2", "part_maximum = 3", "the limits of the whole"),
    ("scales", "cresty-neck", 'combine = ""', 'combine = "sum"', "combine needs parts"),
    ("scales", "ridden-pain", 'flag = "ridden-pain-signs"', 'flag = "rides"', "a band names 'rides'"),
    ("scales", "muscle-atrophy", "back = 0.62", "belly = 0.29", "reliability names 'belly'"),
    ("scales", "muscle-atrophy", "minimum = 0, maximum = 4", "minimum = 4, maximum = 4", "minimum of other_limits"),
    ("vital_signs", "temperature", 'unit = "°C"', 'unit = "K"', "unit is 'K'"),
    ("vital_signs", "temperature", "low = 37.2", "low = 39.2", "must not fall"),
    (
        "vital_signs",
        "temperature",
        'low = 99, high = 101, unit = "°F"',
        'low = 99, high = 98, unit = "°F"',
        "of a spread",
    ),
    ("vital_signs", "temperature", 'flag = "fever"', 'flag = "hot"', "an alarm names 'hot'"),
    ("vital_signs", "temperature", "above = 39, ", "", "above or below, and not both"),
    ("vital_signs", "temperature", 'unit = "°F", above', 'unit = "s", above', "unit of an alarm is 's'"),
    ("vital_signs", "heart-rate", "adult_from_years = 2", "adult_from_years = 20", "adult_from_years is 20"),
    ("vital_signs", "gut-silence", "spread = \\[\n.*\n\\]", "spread = []", "it has no spread"),
]
# Mistakes that show in another row than the one they were planted in.
SHOWS_IN = {
    "does not name it back": "brachiocephalicus",
    "no closing technique fits it": "masseter",
    "no opening technique fits it": "tail",
    "no caution reads it": "bored",
}


def plant(folder: Path, file: str, row: str, old: str, new: str) -> None:
    path = folder / f"{file}.toml"
    head, mark, rest = path.read_text(encoding="utf-8").partition(f"\n[{row}]\n")
    assert mark, f"{file} has no row {row}"
    if old == "^":
        path.write_text(f"{head}\n\n{new}{mark}{rest}", encoding="utf-8")
        return
    body, end, tail = rest.partition("\n\n")
    planted, times = re.subn(old, new.replace("\\", "\\\\"), body, count=1)
    assert times == 1, f"{old} is not in {row} of {file}"
    path.write_text(head + mark + planted + end + tail, encoding="utf-8")


@pytest.mark.parametrize(("file", "row", "old", "new", "wrong"), PLANTED)
def test_a_planted_mistake_is_found(tmp_path: Path, file: str, row: str, old: str, new: str, wrong: str) -> None:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    plant(tmp_path, file, row, old, new)
    with pytest.raises(KnowledgeFault) as fault:
        load_tables("en", tmp_path)
    assert wrong in str(fault.value)
    assert f"row {SHOWS_IN.get(wrong, row)!r}" in str(fault.value)


def test_the_fault_says_how_many_more_there_are(tmp_path: Path) -> None:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    plant(tmp_path, "signs", "yawn", "weight = .*", "weight = 2")
    plant(tmp_path, "signs", "sigh", "weight = .*", "weight = 3")
    with pytest.raises(KnowledgeFault, match=r"1 more fault follows"):
        load_tables("en", tmp_path)


def test_a_table_without_rows_is_found(tmp_path: Path) -> None:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    (tmp_path / "exercises.toml").write_text("# Purpose: none.\n", encoding="utf-8")
    with pytest.raises(KnowledgeFault, match=r"exercises\.toml: it has no rows"):
        load_tables("en", tmp_path)


def test_a_row_that_is_no_table_is_found(tmp_path: Path) -> None:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    signs = tmp_path / "signs.toml"
    signs.write_text("nicker = 3\n" + signs.read_text(encoding="utf-8"), encoding="utf-8")
    with pytest.raises(KnowledgeFault, match="row 'nicker': it must be a table of fields"):
        load_tables("en", tmp_path)


def test_the_tables_that_come_with_haywisp_have_no_flaw() -> None:
    assert flaws_of(load_tables()) == ()


def test_a_structure_may_say_why_it_is_not_worked(tmp_path: Path) -> None:
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    plant(tmp_path, "techniques", "effleurage", "never = \\[\\]", 'never = ["tail"]')
    plant(tmp_path, "structures", "tail", 'source = ".*"', 'source = "x"\nnot_worked = "the hand rests there only"')
    assert load_tables("en", tmp_path).structures["tail"].not_worked == "the hand rests there only"
