"""One chunk heard twice, with the trade's words as a prompt and without, and what is doubtful about it."""

from collections.abc import Sequence
from dataclasses import replace

from haywisp.narration.sound.comparing import compare
from haywisp.narration.sound.coverage import apart, unheard
from haywisp.narration.sound.looping import unlooped
from haywisp.narration.sound.recogniser import Recogniser
from haywisp.narration.sound.types import Again, Chunk, ChunkHeard, Sound
from haywisp.narration.sound.voicing import Spans, voice_between
from haywisp.narration.sound.working_file import samples
from haywisp.narration.types import Word

# A word this far from any voice was made up in the silence.
SILENCE_S = 0.5


def hear_chunk(sound: Sound, chunk: Chunk, recogniser: Recogniser, prompt: str | None) -> ChunkHeard:
    """The words of a chunk and the passages of it to listen to again; without a ``prompt`` it is heard once."""
    voice = voice_between(sound, chunk.start, chunk.end)
    played = samples(sound, chunk.start, chunk.end)
    unprompted = placed(recogniser.hear(played, None), chunk, voice)
    if prompt:
        prompted = placed(recogniser.hear(played, prompt), chunk, voice)
        return guarded(chunk, voice, prompted, unprompted, prompt)
    words, lasted = unlooped(unprompted)
    return _heard(chunk, voice, words, [Again(start, end, "loop") for start, end in lasted])


def guarded(
    chunk: Chunk, voice: Spans, prompted: Sequence[Word], unprompted: Sequence[Word], prompt: str
) -> ChunkHeard:
    """Both passes of a chunk made one, with their disagreements and the voice that has no words."""
    words, again = compare(prompted, unprompted, prompt)
    return _heard(chunk, voice, words, again)


def _heard(chunk: Chunk, voice: Spans, words: Sequence[Word], again: Sequence[Again]) -> ChunkHeard:
    bare = [Again(start, end, "unheard") for start, end in unheard(voice, words, chunk)]
    return ChunkHeard(chunk, tuple(words), tuple(sorted((*again, *bare), key=lambda passage: passage.start)))


def placed(words: Sequence[Word], chunk: Chunk, voice: Spans) -> list[Word]:
    """Words at their times in the recording, without those that were heard in silence."""
    placed = [
        replace(word, start=min(chunk.start + word.start, chunk.end), end=min(chunk.start + word.end, chunk.end))
        for word in words
    ]
    return [word for word in placed if not apart(word, voice, SILENCE_S)]
