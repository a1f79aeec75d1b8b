"""What every test shares: no global random numbers, and figures printed at the end."""

from collections.abc import Callable, Iterator

import numpy as np
import pytest
from hypothesis import settings

# The first example compiles loops and the machine may be busy, so no example is timed; the same
# examples are drawn on every run, so that a failure can be repeated.
settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable")


LONGEST_NAME = 120


def pytest_make_parametrize_id(val: object, argname: str) -> str | None:
    """Name a case of long content by its length: every worker would be sent all of it."""
    if isinstance(val, str | bytes) and len(val) > LONGEST_NAME:
        return f"{argname} of {len(val)}"
    return None


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Refuse to run if what a group of tests shares would be worked out by every worker anew."""
    if not config.getoption("loadgroup", default=False):
        return
    alone = [item.nodeid for item in items if item.get_closest_marker("xdist_group")]
    alone = [nodeid for nodeid in alone if "@" not in nodeid]
    if alone:
        raise pytest.UsageError(
            f"{len(alone)} tests of a group are not kept together, {alone[0]} the first: this "
            "pytest-xdist does not go with this pytest. Install what locks/test.txt names."
        )


@pytest.fixture(autouse=True)
def no_global_random_numbers() -> Iterator[None]:
    """Fail a test that draws from the global generator: its result could not be repeated."""
    before = np.random.get_state(legacy=False)["state"]["key"].copy()  # noqa: NPY002
    position = np.random.get_state(legacy=False)["state"]["pos"]  # noqa: NPY002
    yield
    after = np.random.get_state(legacy=False)["state"]  # noqa: NPY002
    assert position == after["pos"]
    assert (before == after["key"]).all()


@pytest.fixture
def say(record_property: Callable[[str, object], None]) -> Callable[[str], None]:
    """Add a line to the figures printed at the end of the run."""

    def line(text: str) -> None:
        record_property("figure", text)

    return line


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print every figure the studies measured, good and bad alike."""
    lines = [
        str(value)
        for reports in terminalreporter.stats.values()
        for report in reports
        if isinstance(report, pytest.TestReport) and report.when == "call"
        for name, value in report.user_properties
        if name == "figure"
    ]
    if lines:
        terminalreporter.section("figures measured")
        for line in sorted(lines):
            terminalreporter.write_line(line)
