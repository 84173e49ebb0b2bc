"""A server for the pages on a socket of our own, so that a port that was found free is the port that is used."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from ipaddress import ip_address
from typing import TYPE_CHECKING

from haywisp.errors import HaywispError

if TYPE_CHECKING:
    import uvicorn
    from fastapi import FastAPI

PORTS_TRIED = 50
STARTING_S = 20.0


class NoPort(HaywispError):
    """No port to listen on."""

    def __init__(self, host: str, port: int, why: str) -> None:
        super().__init__(f"Can't listen on {host}, port {port}: {why}. Choose another with --port.")


class NotStarted(HaywispError):
    """The server did not come up."""

    def __init__(self) -> None:
        super().__init__("The pages did not start. Try again with another --port.")


def listening(host: str, port: int, tries: int = 1) -> socket.socket:
    """A socket bound to ``port`` or, with ``tries``, to the next one that is free. Port 0 is any free one."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    for candidate in range(port, min(port + tries, 65536)):
        listener = socket.socket(family, socket.SOCK_STREAM)
        try:
            # On Windows this option would let two programs share the port.
            if hasattr(socket, "SO_EXCLUSIVEADDRUSE"):
                listener.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
            else:
                listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listener.bind((host, candidate))
            # Linux lets two sockets with this option bind; only listening tells that a port is taken.
            listener.listen(128)
            return listener
        except OSError as error:
            listener.close()
            why = (error.strerror or str(error)).lower()
    raise NoPort(host, port, why if tries == 1 else f"none of {tries} ports is free")


def address_of(listener: socket.socket) -> str:
    """The address that a socket listens at, as it is typed."""
    host, port = listener.getsockname()[:2]
    return written(host, port)


def written(host: str, port: int) -> str:
    """An address as it is typed into a browser."""
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"


EVERYWHERE = {"0.0.0.0", "::"}
# Documentation addresses (RFC 5737, RFC 3849): to connect a datagram socket sends nothing, it only looks up the route.
ELSEWHERE = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))


def own_addresses(family: int) -> tuple[str, ...]:
    """The addresses of this machine in its networks, the one of its usual route first; none without a network."""
    found: list[str] = []
    for kind, far in ELSEWHERE:
        if family == socket.AF_INET and kind != family:
            continue
        with socket.socket(kind, socket.SOCK_DGRAM) as asked:
            try:
                asked.connect((far, 9))
                found.append(asked.getsockname()[0])
            except OSError:
                continue
    with suppress(OSError):
        found += socket.gethostbyname_ex(socket.gethostname())[2]
    return tuple(dict.fromkeys(one for one in found if not one.startswith("127.") and one != "::1"))


def only_here(listener: socket.socket) -> bool:
    """Whether nothing but this machine can reach what listens: any loopback address, by whatever name it was given."""
    return ip_address(listener.getsockname()[0]).is_loopback


def here_and_there(listener: socket.socket) -> tuple[str, tuple[str, ...]]:
    """The address to type on this machine, and those to type on another one in the same network."""
    host, port = listener.getsockname()[:2]
    if host not in EVERYWHERE:
        here = address_of(listener)
        return here, () if only_here(listener) else (here,)
    there = tuple(written(one, port) for one in own_addresses(listener.family))
    return written("127.0.0.1" if host == "0.0.0.0" else "::1", port), there


def server_of(pages: "FastAPI") -> "uvicorn.Server":
    """A server that says nothing of itself to the browser and logs only what goes wrong."""
    import uvicorn

    return uvicorn.Server(uvicorn.Config(pages, log_level="warning", server_header=False, lifespan="off"))


@contextmanager
def running(pages: "FastAPI", listener: socket.socket) -> Iterator[str]:
    """The pages served from a thread; gives their address, and stops the server at the end."""
    server = server_of(pages)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    waited = threading.Event()
    for _ in range(int(STARTING_S * 100)):
        if server.started or not thread.is_alive():
            break
        waited.wait(0.01)
    try:
        if not server.started:
            raise NotStarted
        yield address_of(listener)
    finally:
        server.should_exit = True
        thread.join(STARTING_S)
        listener.close()
