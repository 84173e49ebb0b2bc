"""Do: what was done in a session and how the horse answered."""

from haywisp.session.log import log_of
from haywisp.session.types import AnsweredBout, SessionLog

__all__ = ["AnsweredBout", "SessionLog", "log_of"]
