"""Mishearings that were written down before the repair was tuned, and never looked at while it was.

`misheard/heldout.txt` has a sentence a line, what was heard in braces and what was meant after the last "=". They are
invented in the manner of speech recognisers.
"""

import re
from pathlib import Path

from narration_samples import lexicon, tables, texts, tokens

from haywisp.narration.tokens import tokenise
from haywisp.narration.understanding import prepared

FILE = Path(__file__).parent / "misheard" / "heldout.txt"
READ_AT_LEAST = 0.75
WRONG_AT_MOST = 0.05


def test_most_are_read_as_meant_and_few_as_something_else() -> None:
    from narration_samples import words

    repairer = prepared(tables())[1].repairer
    missed, wrong, asked = [], [], 0
    for line in FILE.read_text(encoding="utf-8").splitlines():
        sentence, meant = (part.strip() for part in line.rsplit("=", 1))
        found = re.fullmatch(r"(.*)\{(.*)\}(.*)", sentence)
        assert found is not None, line
        before, heard, after = found.groups()
        first = len(before.split())
        last = first + len(heard.split())
        made, repairs = repairer.repair(tokenise(words(before + heard + after), lexicon().spellings))
        asked += 1
        read = f" {texts(tokens(meant))} " in f" {texts(made)} "
        if not read:
            missed.append(line)
        for repair in repairs:
            outside = repair.span.last <= first or repair.span.first >= last
            if outside or not read:
                wrong.append((line, repair.heard, repair.meant))
    assert asked > 150
    assert len(missed) <= (1 - READ_AT_LEAST) * asked, missed
    assert len(wrong) <= WRONG_AT_MOST * asked, wrong
