"""``haywisp visit reading``: vital signs and scores, kept, listed and refused."""

import json

from told import Shell


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_reading_is_kept_and_told(stable: Shell) -> None:
    out = flat(stable.good("visit", "reading", "Bramble", "temperature", "39.4"))
    assert "Kept. Rectal temperature: 39.4 °C." in out
    assert "Before touching: vet first." in out
    listed = flat(stable.good("visit", "reading", "Bramble"))
    assert "39.4 °C" in listed and "body-condition" in listed


def test_as_json(stable: Shell) -> None:
    kept = json.loads(
        stable.good("visit", "reading", "Bramble", "cresty-neck", "2", "--observer", "A. Example", "--json")
    )
    assert (kept["what"], kept["observer"]) == ("cresty-neck", "A. Example")
    assert len(json.loads(stable.good("visit", "reading", "Bramble", "--json"))["kept"]) == 1


def test_what_is_no_reading_is_refused(stable: Shell) -> None:
    wrong = stable("visit", "reading", "Bramble", "lameness-aaep", "9")
    assert (wrong.code, "outside 0 to 5" in wrong.err) == (2, True)
