"""Three hours: never in memory at once, and the long silence in them costs nothing."""

import json
import subprocess
import sys
import wave
from pathlib import Path

import pytest
from sound_files import beep
from sound_needs import speech

pytestmark = [*speech]
HOURS = 3
RATE = 4000
#: What a process holds at most while it prepares and cuts three hours; their samples alone are 660 MB as floats.
MOST_MB = 300

CODE = """
import json, re, resource, sys
from pathlib import Path
from haywisp.narration.sound import chunks, prepare

def most():
    # The most that this process held, in MB; getrusage would count the process that it was forked from.
    status = Path("/proc/self/status")
    told = re.search(r"VmHWM:\\s*(\\d+) kB", status.read_text()) if status.exists() else None
    return int(told[1]) / 1024 if told else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024

sound = prepare(Path(sys.argv[1]), Path(sys.argv[2]))
made = chunks(sound)
print(json.dumps([sound.seconds, len(made), most()]))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="the memory of a process is asked for in another way there")
def test_three_hours_are_cut_within_bounded_memory(tmp_path: Path) -> None:
    source = tmp_path / "long.wav"
    with wave.open(str(source), "wb") as file:
        file.setparams((1, 2, RATE, 0, "NONE", "not compressed"))
        for _ in range(HOURS):
            file.writeframesraw(beep(RATE, 3.0).tobytes())
            file.writeframesraw(bytes(2 * RATE * (3600 - 3)))
    done = subprocess.run(
        [sys.executable, "-c", CODE, str(source), str(tmp_path / "work.wav")],
        capture_output=True,
        text=True,
        timeout=300,
        check=True,
    )
    seconds, made, megabytes = json.loads(done.stdout)
    assert seconds == pytest.approx(HOURS * 3600, abs=1)
    assert made <= HOURS
    assert megabytes < MOST_MB
