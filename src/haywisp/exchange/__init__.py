"""Say it to a machine: one module a format, each with ``write`` and ``read``."""

from haywisp.exchange.errors import BadFile

__all__ = ["BadFile"]
