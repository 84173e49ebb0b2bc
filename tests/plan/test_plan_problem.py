"""Verdict, time and tolerance become a problem."""

from plan_tables import need, small_tables

from haywisp.findings.types import GateVerdict, Limits
from haywisp.plan import problem_for, solve
from haywisp.session.types import SessionLog

TABLES = small_tables()
LEFT = ("masseter", "left")
SHY = {"head-shy": "the horse being shy of its head"}


def verdict(kind: str = "within-limits", *, limits: Limits | None = None) -> GateVerdict:
    return GateVerdict(kind, (), limits or Limits())


def log(guarded: str) -> SessionLog:
    return SessionLog((), {LEFT: guarded})


def test_limits_are_taken_over() -> None:
    limits = Limits(
        frozenset({LEFT}), frozenset({"hacking"}), {("chest", None): "light"}, "moderate", {"hacking": "old"}
    )
    problem = problem_for([need("masseter")], verdict(limits=limits), 45, head_shy=True)
    assert (problem.excluded, problem.techniques_excluded) == (limits.excluded, limits.techniques)
    assert (problem.caps, problem.pressure_cap, problem.why) == (limits.caps, "moderate", {**limits.why, **SHY})
    assert (problem.minutes, problem.head_shy, problem.refusal) == (45, True, "")


def test_what_was_guarded_caps_one_step_below() -> None:
    for guarded, cap in (("firm", "moderate"), ("moderate", "light"), ("light", "light")):
        problem = problem_for([], verdict(), 45, log=log(guarded))
        assert problem.caps == {LEFT: cap}
        assert problem.why["masseter"] == f"guarding against {guarded} pressure here before"


def test_the_lighter_of_gate_and_log_holds_and_both_are_told() -> None:
    limits = Limits(caps={LEFT: "light"}, why={"masseter": "Soreness: tenderness present"})
    problem = problem_for([], verdict(limits=limits), 45, log=log("firm"))
    assert problem.caps == {LEFT: "light"}
    assert problem.why["masseter"] == "Soreness: tenderness present and guarding against firm pressure here before"


def test_a_vet_first_verdict_is_never_planned() -> None:
    worded = "No plan: a vet comes first, because of fever."
    for given, told in ((worded, worded), ("", "No plan: a vet comes first.")):
        problem = problem_for([need("masseter")], verdict("vet-first"), 45, refusal=given)
        plan = solve(problem, TABLES)
        assert (plan.status, plan.refusal, plan.bouts) == ("none", told, ())
    assert problem_for([], verdict(), 45, refusal="").refusal == ""
