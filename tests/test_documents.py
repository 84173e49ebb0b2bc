"""What the documents say is so: commands, links, paths, printed output; and no file names a machine or a registry."""

import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import dev
import pytest
import readme_outputs
import typer

from haywisp.cli import app
from haywisp.knowledge import load_tables

ROOT = Path(__file__).resolve().parents[1]
DOCUMENTS = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])
FOLDERS = ("src", "tests", "scripts", "docs", "benchmarks", ".ci")
README = (ROOT / "README.md").read_text(encoding="utf-8")

LINK = re.compile(r"\]\(([^)\s]+)\)|<img[^>]* src=\"([^\"]+)\"")
SPAN = re.compile(r"(?<!`)`([^`\n]+)`(?!`)")
BLOCK = re.compile(r"^ *```(\w+)\n(.*?)^ *```$", re.DOTALL | re.MULTILINE)
PATH = re.compile(rf"(?:{'|'.join(map(re.escape, FOLDERS))})/\S+|[\w.-]+\.(?:md|toml|lock|py)")
PLACEHOLDER = re.compile(r"[<>{}…]|NNNN|NAME")

# Brackets around one letter keep these patterns from finding themselves.
ADDRESS = re.compile(r"https?://(?:[^/@\s\"']*@)?([\w.\[-]+)")
REGISTRY = re.compile(r"pythonhoste[d]|pypi\.or[g]|npmjs\.[c]|index-ur[l]|artifactor[y]|anaconda\.or[g]", re.IGNORECASE)
MACHINE = re.compile(r"(?<![\w./-])/(?:wor[k]|tm[p]|roo[t]|home/)[\w.-]*/|[A-Z]:\\User[s]", re.IGNORECASE)
#: Namespaces, the source that a licence asks to be named, this machine, and names that are reserved for examples.
HARMLESS = re.compile(
    r"(www\.w3\.org|dejavu-fonts\.github\.io|localhost|127\.0\.0\.1|\[|(.*\.)?example(\.org|\.com)?)\.?", re.IGNORECASE
)


def files() -> Iterator[Path]:
    """Every file that belongs to the project."""
    yield from (path for path in ROOT.iterdir() if path.is_file() and path.suffix not in {".db", ".db-wal", ".db-shm"})
    for folder in FOLDERS:
        yield from (path for path in (ROOT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts)


def text_of(path: Path) -> str:
    """The text of a file; nothing for a picture or a typeface."""
    data = path.read_bytes()
    return "" if b"\0" in data else data.decode("utf-8", "replace")


def betrayed(text: str) -> list[str]:
    """Addresses, registries and machine paths in a text."""
    hosts = [found.group() for found in ADDRESS.finditer(text) if not HARMLESS.fullmatch(found.group(1))]
    return hosts + REGISTRY.findall(text) + MACHINE.findall(text)


def broken_links(text: str, folder: Path) -> list[str]:
    """Links and pictures of a document in ``folder`` that lead nowhere; addresses elsewhere are another test's."""
    targets = [one or other for one, other in LINK.findall(text)]
    return [target for target in targets if ":" not in target and not (folder / target.split("#")[0]).exists()]


def commands(text: str) -> list[list[str]]:
    """The command lines that a document shows, in its blocks and between its words."""
    lines = [span for span in SPAN.findall(BLOCK.sub("", text)) if span.startswith(("haywisp ", "python3 dev.py "))]
    for kind, body in BLOCK.findall(text):
        if kind == "console":
            lines += [line[2:] for line in body.splitlines() if line.startswith("$ ")]
        elif kind == "sh":
            lines += [line.strip() for line in body.splitlines()]
    return [shlex.split(line.split("|")[0]) for line in lines if line.startswith(("haywisp ", "python3 dev.py "))]


def unknown_part(words: list[str]) -> str:
    """The first word of a ``haywisp`` command line that the application does not know; empty when it knows them all."""
    command: Any = typer.main.get_command(app)
    for word in words:
        inner = getattr(command, "commands", None)
        if word.startswith("--"):
            options = {option for param in command.params for option in (*param.opts, *param.secondary_opts)}
            if word not in options | {"--help"}:
                return word
        elif inner is not None:
            if word not in inner:
                return word
            command = inner[word]
    return ""


def document(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("path", DOCUMENTS, ids=document)
def test_every_link_and_picture_is_there(path: Path) -> None:
    assert broken_links(path.read_text(encoding="utf-8"), path.parent) == []


@pytest.mark.parametrize("path", DOCUMENTS, ids=document)
def test_every_file_that_is_named_in_full_is_there(path: Path) -> None:
    spans = [span for span in SPAN.findall(path.read_text(encoding="utf-8")) if not PLACEHOLDER.search(span)]
    named = [span.rstrip("/") for span in spans if "/" in span and PATH.fullmatch(span)]
    assert [name for name in named if not any(ROOT.glob(name))] == []


@pytest.mark.parametrize("path", DOCUMENTS, ids=document)
def test_every_haywisp_command_that_is_shown_is_one(path: Path) -> None:
    shown = [words for words in commands(path.read_text(encoding="utf-8")) if words[0] == "haywisp"]
    assert [(words, part) for words in shown if (part := unknown_part(words[1:]))] == []


@pytest.mark.parametrize("path", DOCUMENTS, ids=document)
def test_every_dev_command_that_is_shown_is_one(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ran: list[tuple[object, ...]] = []
    monkeypatch.setattr(dev, "ensure", lambda: None)
    monkeypatch.setattr(dev, "run", lambda *command, **options: ran.append(command))
    for words in commands(path.read_text(encoding="utf-8")):
        if words[0] == "python3":
            dev.main(words[2:])
            if words[2] in {"demo", "run"}:
                assert unknown_part(words[3:] if words[2] == "run" else words[2:]) == ""
    with pytest.raises(SystemExit):
        dev.main(["no-such-verb"])


def test_the_readme_shows_its_two_commands_and_the_main_ones() -> None:
    shown = [" ".join(words) for words in commands(README)]
    assert {"python3 dev.py demo", "python3 dev.py test"} <= set(shown)
    begun = {words.split()[1] for words in shown if words.startswith("haywisp ")}
    assert {"narrate", "horses", "visit", "plan", "report", "demo"} <= begun


def test_what_the_readme_shows_is_what_haywisp_prints() -> None:
    with readme_outputs.new_practice():
        now = readme_outputs.retold(README)
    assert now == README, "run: .venv/bin/python scripts/readme_outputs.py"


def test_the_readme_counts_the_cautions_as_the_tables_do() -> None:
    cautions = load_tables().cautions.values()
    assert f"a gate of {len(cautions)} cautions" in README
    assert sum(caution.absolute for caution in cautions) == 20
    assert "Twenty of them are absolute" in README


def test_every_decision_is_in_the_list_once_and_in_order() -> None:
    folder = ROOT / "docs" / "decisions"
    written = sorted(path.name for path in folder.glob("0*.md"))
    assert [target for target, _ in LINK.findall((folder / "README.md").read_text(encoding="utf-8"))] == written
    assert [int(name[:4]) for name in written] == list(range(1, len(written) + 1))
    for name in written:
        text = (folder / name).read_text(encoding="utf-8")
        assert text.startswith(f"# {name[:4]} ")
        assert re.findall(r"^\*\*(\w+)\.\*\*", text, re.MULTILINE) == ["Context", "Decision", "Consequence"]


def test_no_file_names_a_registry_an_address_or_a_machine() -> None:
    assert {document(path): found for path in files() if (found := betrayed(text_of(path)))} == {}


def test_the_pins_are_versions_and_hashes_only() -> None:
    lines = (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines()
    pin = re.compile(r"[a-z0-9_.-]+==[^\s/]+( ; [^/\\]+)? \\|    --hash=sha256:[0-9a-f]{64}( \\)?")
    assert [line for line in lines if not pin.fullmatch(line)] == []


@pytest.mark.parametrize(
    "text",
    [
        "see https" + "://mirror.corp/simple",
        "http" + "://user:word@build-7:8080/",
        "--" + "index-" + "url",
        "files.python" + "hosted.org",
        "open /" + "work/main/src",
        "(/" + "tmp/plan/x)",
        "/" + "root/.cache/pip",
        "/" + "home/ann/haywisp.db",
        "C:\\" + "Users\\ann",
    ],
)
def test_a_planted_address_or_path_is_found(text: str) -> None:
    assert betrayed(text) != []


@pytest.mark.parametrize(
    "text",
    [
        "http" + "://127.0.0.1:8765",
        "xmlns='http" + "://www.w3.org/2000/svg'",
        "sqlite:///" + "/path/to/haywisp.db",
        "docs/wo" + "rk/x",
    ],
)
def test_examples_and_namespaces_betray_nothing(text: str) -> None:
    assert betrayed(text) == []


def test_planted_faults_of_a_document_are_found() -> None:
    text = '[a](README.md) ![b](docs/pictures/none.png)\n<img alt="" src="gone.png">\n[c](https://example.org)'
    assert broken_links(text, ROOT) == ["docs/pictures/none.png", "gone.png"]
    shown = commands(
        "`haywisp fly`\n\n```console\n$ haywisp visit ride Quince | head -3\n$ haywisp plan Quince --fast\n```\n"
    )
    assert [unknown_part(words[1:]) for words in shown] == ["fly", "ride", "--fast"]
    assert unknown_part(["--database", "plan"]) == ""
