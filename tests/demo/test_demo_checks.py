"""Each complaint about a broken demo says where and what."""

import re
from pathlib import Path

import pytest

from haywisp.demo import DemoError, load

WHOLE = """
name = "Small (invented)"
invented = true

[[yards]]
id = "yard"
name = "Yard"
address = ""
isolation = false
invented = true

[[owners]]
id = "owner"
name = "Owner"
phone = ""
email = ""
invented = true

[[horses]]
id = "horse"
name = "Horse"
owner = "owner"
yard = "yard"
breed = ""
sex = "mare"
born = 2015
height_cm = 150
work = ""
notes = ""
flags = []
invented = true

[[visits]]
id = "first"
horse = "horse"
day = -7
minutes = 30
practitioner = "Somebody"
narration = "a.txt"
reviewed = true
invented = true

[[visits]]
id = "second"
horse = "horse"
day = 0
minutes = 45
practitioner = "Somebody"
narration = "b.txt"
reviewed = false
invented = true

[[bookings]]
id = "third"
horse = "horse"
day = 0
minutes = 60
practitioner = "Somebody"
invented = true
"""


def folder(tmp_path: Path, text: str) -> Path:
    (tmp_path / "practice.toml").write_text(text, encoding="utf-8")
    (tmp_path / "narrations").mkdir()
    for name in ("a.txt", "b.txt"):
        (tmp_path / "narrations" / name).write_text(f"[0:00] {name}\n", encoding="utf-8")
    return tmp_path


def test_a_whole_one_is_read(tmp_path: Path) -> None:
    practice = load(folder(tmp_path, WHOLE))
    assert [visit.content() for visit in practice.visits] == [b"[0:00] a.txt\n", b"[0:00] b.txt\n"]


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('owner = "owner"', 'owner = "nobody"', r"horse horse names the owner 'nobody', which is not there"),
        ('yard = "yard"', 'yard = "nowhere"', r"horse horse names the yard 'nowhere', which is not there"),
        ('horse = "horse"', 'horse = "other"', r"visit first names the horse 'other', which is not there"),
        ('"b.txt"', '"a.txt"', r"narration a\.txt is used 2 times"),
        ('"b.txt"', '"c.txt"', r"narrations/c\.txt is missing"),
        ('id = "second"', 'id = "first"', r"visit first is used 2 times"),
        ('id = "third"', 'id = "first"', r"visit first is used 2 times"),
        ("day = -7", "day = 3", r"visit first has a narration and lies ahead of today"),
        ("day = 0", "day = -9", r"visit second comes after first and is earlier"),
        ("minutes = 30", "minutes = 0", r"visit first is booked for 0 minutes"),
        ("minutes = 30", "minutes = true", r"visits row 1 \(first\) needs minutes as int and it is True"),
        ("born = 2015", "", r"horses row 1 \(horse\) needs born as int and it is missing"),
        ("flags = []", "flags = [1]", r"horses row 1 \(horse\) has something in flags that is no text"),
        ("flags = []\ninvented = true", "flags = []\ninvented = false", r"horse is not marked as invented"),
        ("invented = true\n\n[[yards]]", "invented = false\n\n[[yards]]", r"practice\.toml is not marked as invented"),
        ("[[yards]]", "[[yards", r"practice\.toml is no TOML file"),
    ],
)
def test_what_is_wrong_is_said(tmp_path: Path, old: str, new: str, sentence: str) -> None:
    assert old in WHOLE
    with pytest.raises(DemoError) as caught:
        load(folder(tmp_path, WHOLE.replace(old, new, 1)))
    assert re.search(sentence, str(caught.value))


def test_no_practice_file_is_said(tmp_path: Path) -> None:
    with pytest.raises(DemoError, match=r"practice\.toml is missing"):
        load(tmp_path)
