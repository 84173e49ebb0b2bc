"""What all tests share: a run that must skip nothing, and the search path of the test helpers."""

import os

import pytest
from hypothesis import settings

# The same examples on every run, so that a change is judged by what it changed; new ones with HAYWISP_SLOW=1.
settings.register_profile("ordinary", derandomize=True)
if os.environ.get("HAYWISP_SLOW") != "1":
    settings.load_profile("ordinary")

# No test writes into the folders of whoever runs it.
os.environ.setdefault("HAYWISP_CACHE", "")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name what was skipped where nothing may be."""
    if os.environ.get("HAYWISP_NO_SKIPS") and terminalreporter.stats.get("skipped"):
        terminalreporter.write_line("HAYWISP_NO_SKIPS is set, and tests were skipped (reasons above).", red=True)


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Fail a run that skipped a test where nothing may be skipped."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    skipped = reporter.stats.get("skipped", []) if reporter is not None else []
    if os.environ.get("HAYWISP_NO_SKIPS") and skipped and exitstatus == 0:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
