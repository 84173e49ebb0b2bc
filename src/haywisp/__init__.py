"""Haywisp: the working record and reckoning tool of a hands-on equine bodywork practitioner."""

__version__ = "0.1.0"
