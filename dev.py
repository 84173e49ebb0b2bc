"""Set up Haywisp's own environment and run it: ``python3 dev.py demo | test | run | tour | setup``.

Needs nothing but a stock Python 3.11 or newer. The environment lives in ``.venv`` beside this file and is made
again whenever the pins in ``requirements.lock``, ``pyproject.toml`` or the Python version change.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
STAMP = VENV / "haywisp-stamp"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")


def stamp() -> str:
    """What the environment was made from: Python, pins and project file."""
    parts = [sys.version.encode(), str(ROOT).encode()]
    parts += [(ROOT / name).read_bytes() for name in ("requirements.lock", "pyproject.toml")]
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


def run(*command: object, **options: object) -> None:
    """Run a command and end with its exit code when it fails."""
    done = subprocess.run([str(part) for part in command], cwd=ROOT, **options)
    if done.returncode:
        sys.exit(done.returncode)


def install() -> None:
    """Make the environment from the lock file, with uv where it is present and with pip otherwise."""
    print("haywisp: setting up .venv (once; the pins are in requirements.lock)", flush=True)
    shutil.rmtree(VENV, ignore_errors=True)
    run(sys.executable, "-m", "venv", VENV)
    uv = shutil.which("uv")
    if uv:
        pip = [uv, "pip", "install", "--quiet", "--compile-bytecode", "--python", PYTHON]
    else:
        pip = [PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    run(*pip, "--require-hashes", "-r", "requirements.lock")
    run(*pip, "--no-deps", "--no-build-isolation", "-e", ".")
    STAMP.write_text(stamp())


def ensure() -> None:
    """Install unless the stamp says that the environment is the one that the lock file asks for."""
    if sys.version_info < (3, 11):
        sys.exit(f"Haywisp needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
    if not (STAMP.exists() and STAMP.read_text() == stamp()):
        install()


def test(arguments: list[str]) -> None:
    """Lint, types and tests; further arguments go to pytest."""
    run(PYTHON, "-m", "ruff", "check", ".")
    run(PYTHON, "-m", "ruff", "format", "--check", ".")
    run(PYTHON, "-m", "mypy")
    run(PYTHON, "-m", "pytest", *(arguments or ["-n", "2", "--dist", "loadgroup"]))


def main(arguments: list[str]) -> None:
    """Read the verb and do it."""
    verb, *rest = arguments or [""]
    if verb not in {"demo", "test", "run", "tour", "setup"}:
        sys.exit(f"{__doc__}\nUse one of: demo, test, run, tour, setup.")
    ensure()
    if verb == "demo":
        run(PYTHON, "-m", "haywisp", "demo", *rest)
    elif verb == "run":
        run(PYTHON, "-m", "haywisp", *rest)
    elif verb == "tour":
        run(PYTHON, "scripts/tour.py", *rest)
    elif verb == "test":
        test(rest)


if __name__ == "__main__":
    try:
        main(sys.argv[1:])
    except KeyboardInterrupt:
        sys.exit(130)
