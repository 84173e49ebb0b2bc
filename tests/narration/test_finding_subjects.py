"""What something found is about, and what only speaks of it (own sentences)."""

import pytest
from narration_samples import understood

Found = tuple[str, str | None, str, str]


def found(text: str) -> list[Found]:
    """Structure, side, aspect and value of each finding."""
    return [(f.structure, f.side, f.aspect, f.value) for f in understood(text).findings]


TRICEPS = "[0:02] Left side. Kneading the triceps. [0:20] "


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("There is heat in his back here, behind the pad.", ("back", "left", "warmth", "warm")),
        ("There's a graze on the inside of the right gaskin.", ("gaskin", "right", "skin", "wound")),
        ("She is not sore there at all, triceps done.", ("triceps-brachii", "left", "tenderness", "absent")),
        ("Nothing wrong with that, it's supple.", ("triceps-brachii", "left", "tone", "normal")),
        ("One knot, at about the sixth rib.", ("triceps-brachii", "left", "texture", "knotted")),
        ("There's a lump. Just behind the elbow, left.", ("girth", "left", "skin", "lump")),
        ("There's far too much crest on him.", ("crest", None, "development", "over")),
        ("No, this one's fine.", ("triceps-brachii", "left", "tone", "normal")),
        ("It is still tight.", ("triceps-brachii", "left", "tone", "tight")),
    ],
)
def test_a_finding_is_of_what_is_named_beside_it_or_under_the_hand(said: str, meant: Found) -> None:
    assert found(TRICEPS + said + " [0:40]") == [meant]


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("Swollen it is not.", ("swelling", "absent")),
        ("Heat, none.", ("warmth", "normal")),
        ("The knot has gone.", ("texture", "smooth")),
        ("The spasm is no more there.", ("spasm", "absent")),
        ("No oedema, mildly painful.", ("swelling", "absent")),
    ],
)
def test_a_denial_may_stand_before_or_after(said: str, meant: tuple[str, str]) -> None:
    assert (found(TRICEPS + said + " [0:40]")[0][2:]) == meant


def test_a_denial_is_spent_on_what_it_denies() -> None:
    heard = found(TRICEPS + "No oedema mildly painful. [0:40]")
    assert [entry[2:] for entry in heard] == [("swelling", "absent"), ("tenderness", "present")]


@pytest.mark.parametrize(
    "said",
    [
        "I'm keeping well clear of that lump.",
        "Nobody goes near the rub.",
        "I'll lay my palm on that stuck place.",
        "Nothing on her back until the hair is back.",
        "The cold towel goes on and stays.",
        "He had a wound on it once.",
        "Was that sore?",
        "Long sweeps again, very soft.",
        "When it's tight the horse goes short.",
    ],
)
def test_what_only_speaks_of_it_finds_nothing(said: str) -> None:
    assert found(TRICEPS + said + " [0:40]") == []


@pytest.mark.parametrize(
    "said",
    [
        "What I wrote in September: multifidus tight, sacroiliac sore. Now, left side.",
        "First session. Withers warm, neck tight. So today we look again.",
        "I am quoting my notes, left longissimus tight with spasm, end quote.",
        "Right rhomboid tight, pecs sore. That was February.",
    ],
)
def test_what_is_read_from_notes_is_not_found_now(said: str) -> None:
    assert found("[0:02] " + said + " [0:30]") == []


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("The near side of the croup is bigger than the off.", "larger-left"),
        ("The off hip is fuller than the near one.", "larger-right"),
        ("His right shoulder is smaller than the left.", "larger-left"),
        ("The left shoulder, it is fatter than the right one.", "larger-left"),
        ("The neck has more muscle on the right than on the left.", "larger-right"),
    ],
)
def test_sides_compared_tell_the_larger(said: str, value: str) -> None:
    assert [entry[1:] for entry in found("[0:02] From behind. " + said + " [0:20]")] == [(None, "symmetry", value)]


@pytest.mark.parametrize(
    "said", ["Told me by phone the left shoulder was bigger.", "He takes a bigger step on the left.", "The bigger one."]
)
def test_other_comparisons_are_no_symmetry(said: str) -> None:
    assert found("[0:02] Before I begin. " + said + " [0:20]") == []


def test_the_other_of_two_muscles_under_the_hands() -> None:
    heard = found(
        "[0:02] Left side. Kneading the biceps femoris and semitendinosus. [0:20] Biceps is soft. The other is tight."
    )
    assert heard == [("biceps-femoris", "left", "tone", "normal"), ("semitendinosus", "left", "tone", "tight")]


def test_a_likeness_is_no_finding_of_its_own() -> None:
    assert found(TRICEPS + "Tight as a fiddle string. [0:40]") == [("triceps-brachii", "left", "tone", "tight")]
    assert found("[0:02] A lump under his belly about like a conker. [0:20]") == [("belly", None, "skin", "lump")]


def test_what_lies_under_the_tack_is_of_the_back() -> None:
    said = "[0:02] Left side. Effleurage along the longissimus dorsi. [0:20] There's heat under the pad. [0:40]"
    assert found(said) == [("back", "left", "warmth", "warm")]


def test_one_place_may_have_a_lump_and_a_rub() -> None:
    heard = found("[0:02] Girth area. There's a lump. And there's a rub. [0:20]")
    assert [entry[3] for entry in heard] == ["lump", "rub"]
