"""A worker: takes orders as they come and does them part by part, each part kept before the next begins."""

import logging
from collections.abc import Callable, Mapping, Sequence
from threading import Event
from typing import TYPE_CHECKING, Any

from haywisp.errors import HaywispError
from haywisp.jobs.hands import Hands
from haywisp.jobs.types import Order, Plain, Stopped, Work

if TYPE_CHECKING:
    from dbos import DBOSConfig

#: Changes when parts that were kept can't be gone on with by this version.
VERSION = "1"
SCHEMA = "haywisp_jobs"
QUEUE = "haywisp"
LOOKS_EVERY_S = 1.0
#: How many times it looks for orders between looks for dead workers.
LOOKS = 15
FAULT = (
    "Something went wrong on our side. Nothing is lost: try again; if it happens once more, tell whoever looks after "
    "this Haywisp."
)
log = logging.getLogger("haywisp.jobs")


class Failed(Exception):
    """Why an order can't go on. One plain text, since it is kept and read back."""


def work_off(url: str, hands: Hands, works: Sequence[Work], stop: Event, every_s: float = LOOKS_EVERY_S) -> None:
    """Work until ``stop`` is set, under the name that ``hands`` holds.

    ``url`` is an SQLAlchemy address: a SQLite file of its own, or the PostgreSQL database that all share.
    """
    from dbos import DBOS

    DBOS(config=settings(url, hands.name, every_s))
    in_parts = _registered({work.name: work for work in works})
    DBOS.launch()
    try:
        # One recording at a time: hearing takes all processors as it is.
        DBOS.register_queue(QUEUE, worker_concurrency=1, polling_interval_sec=every_s, on_conflict="always_update")
        taken: set[str] = set()
        looks = 0
        while not stop.is_set():
            if looks % LOOKS == 0:
                _take_over(hands)
                _tidy({work.name: work for work in works})
            for work in works:
                _take(work, taken, in_parts)
            looks += 1
            stop.wait(every_s)
    finally:
        DBOS.destroy(destroy_registry=True)


def settings(url: str, name: str, every_s: float) -> "DBOSConfig":
    """No telemetry, no console, no door to listen at; the same version for the same parts."""
    return {
        "name": "haywisp",
        "system_database_url": url,
        "dbos_system_schema": SCHEMA,
        "application_version": VERSION,
        "executor_id": name,
        "enable_otlp": False,
        "log_level": "ERROR",
        "notification_listener_polling_interval_sec": every_s,
    }


def _registered(works: Mapping[str, Work]) -> Callable[..., None]:
    from dbos import DBOS

    @DBOS.step(name="begin")
    def begin(name: str, order: Order) -> list[Plain]:
        return list(_done(works[name], order, lambda: works[name].begin(order)))

    @DBOS.step(name="part")
    def part(name: str, order: Order, what: Plain) -> Plain:
        gave: Plain = _done(works[name], order, lambda: works[name].part(order, what))
        return gave

    @DBOS.step(name="end")
    def end(name: str, order: Order, gave: list[Plain]) -> None:
        _done(works[name], order, lambda: works[name].end(order, gave))

    @DBOS.workflow(name="in_parts")
    def in_parts() -> None:
        # An attempt that goes on from an earlier one is told apart by its id alone.
        name, order = _read(str(DBOS.workflow_id))
        gave = [part(name, order, what) for what in begin(name, order)]
        end(name, order, gave)

    return in_parts


def _done(work: Work, order: Order, act: Callable[[], Any]) -> Any:
    try:
        return act()
    except Stopped as stopped:
        raise Failed("stopped") from stopped
    except HaywispError as refused:
        work.failed(order, str(refused))
        raise Failed(str(refused)) from None
    except Exception as fault:
        log.exception("A part of %s failed", order)
        work.failed(order, FAULT)
        raise Failed(str(fault)) from fault


def _take(work: Work, taken: set[str], in_parts: Callable[..., None]) -> None:
    """Put in the queue what nobody has put there yet."""
    from dbos import DBOS, SetWorkflowID

    try:
        orders = work.waiting()
    except HaywispError as busy:
        log.warning("%s", busy)
        return
    for order in orders:
        key = _key(work, order)
        if key in taken:
            continue
        taken.add(key)
        if DBOS.get_workflow_status(key) is not None:
            # Another worker was quicker, or this one before it died.
            continue
        before = _steps_done(_key(work, Order(order.subject, order.attempt - 1)))
        with SetWorkflowID(key):
            if before:
                DBOS.fork_workflow(_key(work, Order(order.subject, order.attempt - 1)), before + 1, queue_name=QUEUE)
            else:
                DBOS.enqueue_workflow(QUEUE, in_parts)


def _steps_done(key: str) -> int:
    """How many steps of an earlier attempt can be taken over: none of one that came to its end."""
    from dbos import DBOS

    status = DBOS.get_workflow_status(key)
    if status is None or status.status == "SUCCESS":
        return 0
    done = 0
    for step in DBOS.list_workflow_steps(key):
        if step["error"] is not None or step["function_id"] != done + 1:
            break
        done += 1
    return done


def _take_over(hands: Hands) -> None:
    """Put back in the queue what workers of this machine were at when they died."""
    from dbos import DBOS

    for name in hands.left_behind():
        left = DBOS.list_workflows(status="PENDING", executor_id=name, load_input=False, load_output=False)
        DBOS.resume_workflows([one.workflow_id for one in left], queue_name=QUEUE)


def _tidy(works: Mapping[str, Work]) -> None:
    """Forget what parts gave once nobody goes on from it: it may be words that somebody has deleted."""
    from dbos import DBOS

    over = DBOS.list_workflows(status=["SUCCESS", "ERROR", "CANCELLED"], load_input=False, load_output=False)
    for one in over:
        name, order = _read(one.workflow_id)
        if one.status == "SUCCESS" or not works[name].wanted(order.subject):
            DBOS.delete_workflow(one.workflow_id)


def _key(work: Work, order: Order) -> str:
    return f"{work.name}:{order.subject}:{order.attempt}"


def _read(key: str) -> tuple[str, Order]:
    name, subject, attempt = key.split(":")
    return name, Order(subject, int(attempt))
