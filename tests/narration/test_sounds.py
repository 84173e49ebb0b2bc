"""Sound keys.

Pairs that a recogniser really mixed up (own measurement on synthetic voices) share a key.
"""

import pytest

from haywisp.narration.sounds import sound_key


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("croop", "croup"),
        ("splinius", "splenius"),
        ("spleenus", "splenius"),
        ("effluorage", "effleurage"),
        ("ephleurage", "effleurage"),
        ("brachiosfalicus", "brachiosphalicus"),
        ("petrusage", "petrissage"),
        ("rumboid", "rhomboid"),
        ("guelding", "gelding"),
        ("efflurage", "effleurage"),
        ("petrasage", "petrissage"),
    ],
)
def test_words_that_sound_alike_share_a_key(heard: str, meant: str) -> None:
    assert sound_key(heard) == sound_key(meant)


@pytest.mark.parametrize(("one", "other"), [("poll", "croup"), ("withers", "loin"), ("biceps", "triceps")])
def test_words_that_sound_apart_have_keys_apart(one: str, other: str) -> None:
    assert sound_key(one) != sound_key(other)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("", ""),
        ("a", "a"),
        ("aeiou", "a"),
        ("poll", "pl"),
        ("bowl", "pl"),
        ("neck", "nk"),
        ("knee", "n"),
        ("phase", "fs"),
    ],
)
def test_keys(text: str, key: str) -> None:
    assert sound_key(text) == key


def test_a_first_vowel_counts_whichever_it_is() -> None:
    assert sound_key("atlas") == sound_key("otlas") != sound_key("tlas")


def test_doubling_and_voice_do_not_count() -> None:
    assert sound_key("gluteals") == sound_key("kludeals") == sound_key("gglutteallss")
