"""The fields of an entry as they are typed, and what each can be."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from haywisp.usecases.views import Vocabulary

# Of a value that is none of no more choices than these the refusal lists them itself.
LISTED = 12
FIELDS_HELP = (
    "A bout: technique, structures (with commas), side, passes, pressure. A finding: structure, side, aspect, value. "
    "A response: sign. An action: kind. A flag: flag. A note: text. What was not said is left out."
)


def changes_of(given: Sequence[str]) -> dict[str, object]:
    """``FIELD=VALUE`` as fields; refused where there is no sign between them."""
    from haywisp.usecases import Refused

    fields: dict[str, object] = {}
    for one in given:
        name, sign, value = one.partition("=")
        if not sign:
            raise Refused(f"“{name}” is no change: write FIELD=VALUE, such as side=left.")
        fields[name.strip()] = value
    return fields


@contextmanager
def saying_choices(vocabulary: "Vocabulary", part: str, fields: Mapping[str, object]) -> Iterator[None]:
    """Refuse what the tables don't know with the choices, where the sentence leaves them to a list on a page."""
    from haywisp.usecases import Refused

    try:
        yield
    except Refused as refused:
        told = [
            f"{name} can be {', '.join(choices)}."
            for name, choices in _choices(vocabulary, part, str(fields.get("aspect", ""))).items()
            if not _given(fields.get(name)) <= set(choices) and (len(choices) > LISTED or name not in fields)
        ]
        raise Refused(" ".join([str(refused), *told]), refused.problems) from refused


def _given(value: object) -> set[str]:
    """One value or several as they are typed; what is missing is an empty one."""
    several = value if isinstance(value, list | tuple) else str(value or "").split(",")
    return {str(one).strip() for one in several}


def _choices(vocabulary: "Vocabulary", part: str, aspect: str) -> Mapping[str, Sequence[str]]:
    """The fields of a part that have to be said, with what each can be."""
    structures = [option.value for group in vocabulary.structures for option in group.options]
    fields: Mapping[str, Mapping[str, Sequence[str]]] = {
        "bout": {"technique": [one.value for one in vocabulary.techniques], "structures": structures},
        "finding": {
            "structure": structures,
            "aspect": [one.value for one in vocabulary.aspects],
            "value": [one.value for one in vocabulary.values.get(aspect, ())],
        },
        "response": {"sign": [one.value for one in vocabulary.signs]},
        "action": {"kind": [one.value for one in vocabulary.actions]},
        "flag": {"flag": [one.value for one in vocabulary.flags]},
    }
    return {name: choices for name, choices in fields.get(part, {}).items() if choices}
