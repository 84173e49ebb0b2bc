"""Spot checks of the anatomy; the source is named beside each group of checks."""

import pytest

from haywisp.knowledge import load_tables

# Origins, insertions and nerves of limb muscles as WikiVet's limb pages give them.
WIKIVET = [
    ("trapezius-cervical", "insertion", "spine of the scapula"),
    ("trapezius-cervical", "nerve", "accessory"),
    ("trapezius-thoracic", "insertion", "tuber of the spine of the scapula"),
    ("trapezius-thoracic", "nerve", "accessory"),
    ("deltoideus", "insertion", "deltoid tuberosity"),
    ("deltoideus", "nerve", "axillary"),
    ("deltoideus", "action", "flexes the shoulder"),
    ("supraspinatus", "origin", "supraspinous fossa"),
    ("supraspinatus", "insertion", "both tubercles"),
    ("latissimus-dorsi", "origin", "thoracolumbar fascia"),
    ("latissimus-dorsi", "insertion", "teres major tuberosity"),
    ("pectoralis-descendens", "origin", "manubrium"),
    ("pectoralis-transversus", "action", "adducts"),
    ("brachiocephalicus", "nerve", "accessory"),
    ("serratus-ventralis-cervicis", "insertion", "scapula"),
    ("serratus-ventralis-thoracis", "action", "slings the trunk"),
]
# Common anatomy-text knowledge, from memory: not checked against one text.
FROM_MEMORY = [
    ("splenius", "action", "raises the neck"),
    ("triceps-brachii", "insertion", "olecranon"),
    ("triceps-brachii", "nerve", "radial"),
    ("biceps-brachii", "nerve", "musculocutaneous"),
    ("gluteus-medius", "insertion", "greater trochanter"),
    ("gluteus-superficialis", "insertion", "third trochanter"),
    ("tensor-fasciae-latae", "origin", "tuber coxae"),
    ("iliopsoas", "insertion", "lesser trochanter"),
    ("quadriceps", "nerve", "femoral"),
    ("adductors", "nerve", "obturator"),
    ("gastrocnemius", "insertion", "calcaneus"),
    ("masseter", "nerve", "trigeminal"),
    ("cutaneus-trunci", "action", "twitches the skin"),
    ("rectus-abdominis", "insertion", "pubis"),
]


@pytest.mark.parametrize(("muscle", "field", "words"), WIKIVET)
def test_against_wikivet(muscle: str, field: str, words: str) -> None:
    row = load_tables().structures[muscle]
    assert words in getattr(row, field)
    assert "WikiVet" in row.source


@pytest.mark.parametrize(("muscle", "field", "words"), FROM_MEMORY)
def test_against_memory(muscle: str, field: str, words: str) -> None:
    row = load_tables().structures[muscle]
    assert words in getattr(row, field)
    assert "from memory" in row.source


# Which region the hand works a muscle in: common practice, no source.
@pytest.mark.parametrize(
    ("muscle", "region"),
    [
        ("masseter", "jaw"),
        ("rectus-capitis", "poll"),
        ("splenius", "neck"),
        ("triceps-brachii", "shoulder"),
        ("pectoralis-descendens", "chest"),
        ("pectoralis-ascendens", "girth"),
        ("longissimus-dorsi", "back"),
        ("iliopsoas", "loin"),
        ("rectus-abdominis", "belly"),
        ("gluteus-medius", "croup"),
        ("semitendinosus", "hamstrings"),
        ("gastrocnemius", "gaskin"),
    ],
)
def test_region(muscle: str, region: str) -> None:
    assert load_tables().structures[muscle].region == region


def test_neighbours_join_the_whole_horse_from_poll_to_hock() -> None:
    structures = load_tables().structures
    reached, edge = {"rectus-capitis"}, ["rectus-capitis"]
    while edge:
        fresh = [next_to for one in edge for next_to in structures[one].neighbours if next_to not in reached]
        reached.update(fresh)
        edge = list(dict.fromkeys(fresh))
    assert reached == {row.id for row in structures.values() if row.kind != "region"}
