"""Tables that were read once are kept as JSON, which is read many times faster than the TOML that they are written in.

What is kept is only ever a copy: it is named by the bytes that it was made from and begins with a digest of itself, so
that a table that was changed, or a copy that was damaged, is read from its own file again. Where nothing can be
written, nothing is kept.
"""

import json
import tomllib
from hashlib import sha256
from pathlib import Path


def toml_of(data: bytes, name: str, kept_in: Path | None) -> dict[str, object]:
    """A table's entries from the bytes of its TOML file; faults in these are raised as ``tomllib`` raises them."""
    if kept_in is None:
        return tomllib.loads(data.decode("utf-8"))
    stem = name.removesuffix(".toml").replace("/", "-")
    copy = kept_in / f"{stem}.{sha256(data).hexdigest()}.json"
    found = _kept(copy)
    if found is None:
        found = tomllib.loads(data.decode("utf-8"))
        _keep(found, copy, stem)
    return found


def _kept(copy: Path) -> dict[str, object] | None:
    try:
        digest, _, text = copy.read_text(encoding="utf-8").partition("\n")
        if digest != _digest(text):
            return None
        found = json.loads(text)
    except (OSError, ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def _keep(table: dict[str, object], copy: Path, stem: str) -> None:
    """Keep a table that JSON gives back as it is, in place of older copies of it."""
    import tempfile

    try:
        text = json.dumps(table, allow_nan=False, ensure_ascii=False)
    except (TypeError, ValueError):
        return
    if json.loads(text) != table:
        return
    try:
        copy.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", dir=copy.parent, suffix=".part", delete=False) as part:
            part.write(f"{_digest(text)}\n{text}")
        Path(part.name).replace(copy)
        for older in copy.parent.glob(f"{stem}.*.json"):
            if older != copy:
                older.unlink(missing_ok=True)
    except OSError:
        return


def _digest(text: str) -> str:
    return sha256(text.encode("utf-8")).hexdigest()
