"""A rough key of how a word sounds, for finding a trade word in what a recogniser wrote."""

import re

# Longest first; what is left of the vowels falls away.
SOUNDS = tuple(
    pair.split(">")
    for pair in [
        "tch>k",
        "sch>sk",
        "ough>f",
        "ight>it",
        "eight>et",
        "ck>k",
        "ch>k",
        "sh>s",
        "ph>f",
        "th>t",
        "qu>kw",
        "gh>k",
        "wr>r",
        "kn>n",
        "x>ks",
        "ce>s",
        "ci>s",
        "cy>s",
        "ge>j",
        "gi>j",
        "gy>j",
        "dg>j",
        "c>k",
        "q>k",
        "z>s",
        "v>f",
        "d>t",
        "b>p",
        "g>k",
        "m>n",
        "j>k",
    ]
)
VOWELS = re.compile(r"[aeiouyhw]+")
REPEATS = re.compile(r"(.)\1+")


def sound_key(text: str) -> str:
    """Consonants of a word by kind of sound; vowels, aspiration and doubling are dropped.

    Voiced and unvoiced consonants, and m and n, share a letter, as recognisers mix them up.
    """
    key = text
    for written, sound in SOUNDS:
        key = key.replace(written, sound)
    first = key[:1]
    body = VOWELS.sub("", key)
    if first and first in "aeiouyhw":
        body = "a" + body
    return REPEATS.sub(r"\1", body)
