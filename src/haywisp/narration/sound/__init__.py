"""Sound into words: any recording to timed words, with the passages that should be listened to again."""

from haywisp.narration.sound.assembling import assemble
from haywisp.narration.sound.chunking import chunks
from haywisp.narration.sound.errors import NoModel, NoRecogniser, NotHeard
from haywisp.narration.sound.guarding import hear_chunk
from haywisp.narration.sound.listening import listen
from haywisp.narration.sound.preparing import prepare
from haywisp.narration.sound.prompting import trade_prompt
from haywisp.narration.sound.recogniser import Recogniser, open_recogniser
from haywisp.narration.sound.types import Again, Chunk, ChunkHeard, Heard, Sound

__all__ = [
    "Again",
    "Chunk",
    "ChunkHeard",
    "Heard",
    "NoModel",
    "NoRecogniser",
    "NotHeard",
    "Recogniser",
    "Sound",
    "assemble",
    "chunks",
    "hear_chunk",
    "listen",
    "open_recogniser",
    "prepare",
    "trade_prompt",
]
