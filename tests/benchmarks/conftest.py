"""The measures of the narration engine on the search path, as they are where the benchmark runs."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parents[2] / "benchmarks" / "narration"))
