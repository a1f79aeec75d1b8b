"""Content from outside that is spoilt, strange or huge meets only our own errors, and in time."""

import resource
import time
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fuzz_targets import TARGETS, refused
from hostile import spoilt

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
MET = sorted(path for path in CORPUS.rglob("*") if path.is_file())
"""What once met something else than one of our own errors, or was never answered."""

EXAMPLES = {"shot_table": 4, "own_table": 6, "pasted": 6, "record": 2, "rack": 15, "readings": 15}
EXAMPLES |= {"learned": 8, "effects": 8}
USUAL = 30
WAYS_IN = [name for name in TARGETS if name != "form"]
"""Forms are sent by the tests of the web application."""

BIG = 1_000_000
HUGE = {
    "separators": b"," * BIG,
    "digits": b"9" * BIG,
    "brackets": b"[" * BIG,
    "points": b"a." * (BIG // 2),
    "ends of lines": b"\n" * BIG,
}
MOST_WORK = 20.0
MOST_MEMORY = 512 << 10
"""By which the most memory ever needed may grow [KiB]."""


@pytest.mark.parametrize("name", WAYS_IN)
def test_spoilt_content_is_taken_or_refused_with_place_and_mend(name: str) -> None:
    target = TARGETS[name]
    seeds = target.seeds()

    @settings(
        max_examples=EXAMPLES.get(name, USUAL),
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(chance=st.randoms(use_true_random=False))
    def spoil(chance: Random) -> None:
        refused(target, spoilt(chance.choice(seeds), chance))

    spoil()


@pytest.mark.parametrize("name", WAYS_IN)
def test_content_that_is_good_is_taken_at_least_once(name: str) -> None:
    target = TARGETS[name]
    assert any(refused(target, seed) is None for seed in target.seeds())


@pytest.mark.parametrize("path", MET, ids=lambda path: f"{path.parent.name}-{path.name}")
def test_what_once_broke_a_reader_is_refused_whole_or_line_by_line(path: Path) -> None:
    refused(TARGETS[path.parent.name], path.read_bytes())


@pytest.mark.parametrize("name", WAYS_IN)
def test_huge_content_is_answered_in_bounded_time_and_memory(name: str) -> None:
    for what, content in HUGE.items():
        before, began = _most_memory(), time.process_time()
        refused(TARGETS[name], content)
        assert time.process_time() - began < MOST_WORK, what
        assert _most_memory() - before < MOST_MEMORY, what


def _most_memory() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
