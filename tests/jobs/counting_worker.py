"""A worker of its own process for the tests: counts on paper, and waits in the middle until it is let go."""

import sys
import time
from collections.abc import Sequence
from pathlib import Path
from threading import Event

from haywisp.jobs import Hands, Order, Plain, Stopped, Work, work_off

PARTS = 5
WAITS_AT = 2


def counting(folder: Path) -> Work:
    """Orders are files ``order-SUBJECT`` that hold the attempt; what is done goes to ``paper``, a line each."""

    def write(line: str) -> None:
        with (folder / "paper").open("a") as paper:
            paper.write(f"{line}\n")

    def waiting() -> list[Order]:
        found = [path for path in sorted(folder.glob("order-*")) if not (folder / f"begun-{path.name}").exists()]
        return [Order(path.name.removeprefix("order-"), int(path.read_text())) for path in found]

    def begin(order: Order) -> list[Plain]:
        write(f"begin {order.attempt}")
        return [{"number": number} for number in range(PARTS)]

    def part(order: Order, what: Plain) -> Plain:
        number = what["number"]
        write(f"part {number}")
        if number == WAITS_AT:
            while not (folder / "go").exists():
                time.sleep(0.02)
            if (folder / "go").read_text() == "stop":
                raise Stopped
            if (folder / "go").read_text() == "break":
                raise ValueError("paper is full")
        return {"square": number * number}

    def end(order: Order, gave: Sequence[Plain]) -> None:
        write(f"end {sum(one['square'] for one in gave)}")

    def failed(order: Order, sentence: str) -> None:
        write(f"failed {sentence}")

    def wanted(subject: str) -> bool:
        return (folder / f"order-{subject}").exists()

    return Work("count", waiting, begin, part, end, failed, wanted)


if __name__ == "__main__":
    url, where = sys.argv[1], Path(sys.argv[2])
    hands = Hands(where / "hands", "here")
    hands.take()
    (where / "name").write_text(hands.name)
    work_off(url, hands, [counting(where)], Event(), every_s=0.05)
