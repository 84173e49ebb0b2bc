"""What every request passes first: the host it asks for, where it came from, its size, and the safety headers."""

from collections.abc import Collection
from dataclasses import dataclass
from ipaddress import ip_address
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from haywisp.usecases import TooLarge
from haywisp.usecases.listening import LARGEST_FILE

# A form with a file of the largest size: the file, and what the form says around it.
BODY_LIMIT = LARGEST_FILE + 64 * 1024
DRAIN_LIMIT = 8 * BODY_LIMIT

POLICY = "; ".join(
    (
        "default-src 'self'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
# A browser shows a PDF in a page of its own making, whose styles stand in the page and which embeds the document.
PDF_POLICY = "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; base-uri 'none'; frame-ancestors 'none'"
# "same-origin" rather than "no-referrer", because the latter makes browsers send "Origin: null" with our own forms.
SAFETY_HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
PRIVATE_SUFFIXES = (".local", ".localhost", ".lan", ".home.arpa", ".internal")

TOO_BIG = str(TooLarge("That file", LARGEST_FILE))
FOREIGN = "This form was sent from another site, so nothing was done. Open Haywisp itself and send it from there."
STRANGE_HOST = (
    "Haywisp does not answer under the name “{host}”. "
    "Open it by its number (such as 127.0.0.1) or by the name it was started for."
)


@dataclass(frozen=True, slots=True)
class Refusal:
    """A request that goes no further: the status and the sentence to show."""

    status: int
    sentence: str


def own_host(host: str, allowed: Collection[str] = ()) -> bool:
    """Whether a Host header names this machine.

    Names without a dot, private suffixes and bare addresses can't be pointed here by a stranger's domain (DNS
    rebinding), so only full domain names have to be listed.
    """
    name = (urlsplit(f"//{host}").hostname or "").rstrip(".")
    if not name:
        return False
    if name in allowed or "." not in name or name.endswith(PRIVATE_SUFFIXES):
        return True
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def same_origin(headers: Headers) -> bool:
    """Whether a request that changes something was sent by our own page (or by no browser at all)."""
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = headers.get("origin")
    return origin is None or urlsplit(origin).netloc == headers.get("host", "")


def refusal_of(method: str, headers: Headers, allowed: Collection[str] = ()) -> Refusal | None:
    """The reason not to let a request through, by its headers alone."""
    host = headers.get("host", "")
    if not own_host(host, allowed):
        return Refusal(400, STRANGE_HOST.format(host=host))
    if method in {"GET", "HEAD", "OPTIONS"}:
        return None
    if not same_origin(headers):
        return Refusal(403, FOREIGN)
    length = headers.get("content-length", "")
    return Refusal(413, TOO_BIG) if length.isdigit() and int(length) > BODY_LIMIT else None


class BodyTooBig(Exception):
    """Raised while a body without a length, or with a wrong one, is being read past the limit."""


class Guard:
    """The middleware: refuses with ``app.state.refuse`` (a page) and adds the safety headers to every answer."""

    def __init__(self, app: ASGIApp, allowed: Collection[str] = ()) -> None:
        self.app = app
        self.allowed = frozenset(allowed)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        started = False

        async def guarded_send(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                headers = MutableHeaders(scope=message)
                for name, value in SAFETY_HEADERS.items():
                    headers.setdefault(name, value)
                # A page from the browser's own store would show entries as they were before someone decided on them.
                headers.setdefault("Cache-Control", "no-store")
                # The same address answers htmx with a piece and a browser with the whole page.
                headers.add_vary_header("HX-Request")
            await send(message)

        refusal = refusal_of(scope["method"], Headers(scope=scope), self.allowed)
        if refusal:
            await drain(receive)
            await scope["app"].state.refuse(refusal, scope)(scope, receive, guarded_send)
            return
        try:
            await self.app(scope, limited(receive), guarded_send)
        except BodyTooBig:
            if started:
                raise
            await drain(receive)
            await scope["app"].state.refuse(Refusal(413, TOO_BIG), scope)(scope, receive, guarded_send)


def limited(receive: Receive) -> Receive:
    """The same stream, ending with :class:`BodyTooBig` once more than the limit has come."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > BODY_LIMIT:
            raise BodyTooBig
        return message

    return counted


async def drain(receive: Receive) -> None:
    """Read and forget the rest of a body, within reason: a browser shows no answer while it is still sending."""
    seen = 0
    while seen < DRAIN_LIMIT:
        message = await receive()
        seen += len(message.get("body", b""))
        if message["type"] != "http.request" or not message.get("more_body"):
            return
