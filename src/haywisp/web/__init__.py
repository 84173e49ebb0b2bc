"""The pages: a thin shell that reads a request into a command, calls a use case and maps the answer to HTML."""

from haywisp.web.application import create_app

__all__ = ["create_app"]
