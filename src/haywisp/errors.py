"""The one base class of Haywisp's own faults; each subclass takes the facts and owns its sentence."""


class HaywispError(Exception):
    """A fault that a person can do something about: its text says what, where and what to do."""
