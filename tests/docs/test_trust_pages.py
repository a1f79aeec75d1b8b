"""The pages on trust name only tests and scripts that exist, and leave no requirement out."""

import ast
import json
import re
import tomllib
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from pages import ROOT

DOCS: Final = ROOT / "docs"
STANDARD: Final = tomllib.loads(
    Path(__file__).with_name("asvs_level_1.toml").read_text(encoding="utf-8")
)
ASVS: Final = DOCS / "trust-asvs.md"
TRUST: Final = DOCS / "trust.md"
THREATS: Final = DOCS / "threat-model.md"
SECURITY: Final = ROOT / "SECURITY.md"
CRASH: Final = DOCS / "truth" / "crash.json"
TRUST_PAGES: Final = (ASVS, TRUST, THREATS)

MET: Final = "met"
STATES: Final = (MET, "in part", "not met", "does not apply")
NOT_MEASURED: Final = "not measured yet"
ROW: Final = re.compile(r"^\| (\d+\.\d+\.\d+) \| (.+?) \| (.+?) \| (.+) \|$", re.MULTILINE)
NAMED: Final = re.compile(r"`((?:tests|scripts)/[\w./-]+)(?:::(\w+))?`")
TARGET: Final = re.compile(r"`make ([\w-]+)`")


def rows() -> list[tuple[str, str, str, str]]:
    """Return number, words, state and reason of every requirement on the page."""
    return ROW.findall(ASVS.read_text(encoding="utf-8"))


@cache
def functions_in(path: Path) -> frozenset[str]:
    """Return the names of a module's functions and of its classes' methods."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return frozenset(node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def lost_in(text: str) -> list[str]:
    """Return every test, script or target of make that a text names and that is not there."""
    lost = []
    for name, function in NAMED.findall(text):
        path = ROOT / name
        there = path.is_file() or (path.is_dir() and not function)
        if not there or (function and function not in functions_in(path)):
            lost.append(f"{name}::{function}" if function else name)
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    targets = set(re.findall(r"^([\w-]+):", makefile, re.MULTILINE))
    return lost + [f"make {one}" for one in TARGET.findall(text) if one not in targets]


@pytest.mark.parametrize("page", [*TRUST_PAGES, SECURITY], ids=lambda page: page.name)
def test_every_test_and_script_that_is_named_exists(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    assert lost_in(text) == []
    if page != SECURITY:
        assert len(NAMED.findall(text)) > 8


def test_a_name_that_is_lost_is_found_out() -> None:
    text = "`tests/web/test_guard.py::test_nothing` `scripts/nowhere` `make nonsense`"
    assert lost_in(text) == [
        "tests/web/test_guard.py::test_nothing",
        "scripts/nowhere",
        "make nonsense",
    ]


def test_every_requirement_of_level_1_stands_on_the_page_once() -> None:
    numbers = [number for number, *_ in rows()]
    assert numbers == STANDARD["numbers"]
    assert len(set(numbers)) == len(numbers) == 70
    text = ASVS.read_text(encoding="utf-8")
    for one in ("edition", "repository", "file", "commit"):
        assert STANDARD[one] in text


def test_every_requirement_has_a_state_and_what_shows_it() -> None:
    for number, words, state, reason in rows():
        assert state in STATES, number
        assert len(words) > 15, number
        if state in {MET, "in part"}:
            assert NAMED.search(reason), number
        else:
            assert len(re.sub(NAMED, "", reason).split()) >= 4, number


def test_the_counts_over_the_table_are_those_of_the_table() -> None:
    found = Counter(state for _, _, state, _ in rows())
    told = (
        f"**{len(rows())} requirements: {found[MET]} met, {found['in part']} in part, "
        f"{found['not met']} not met, {found['does not apply']} do not apply.**"
    )
    assert told in ASVS.read_text(encoding="utf-8")


def test_what_is_not_met_is_told_in_the_threat_model_too() -> None:
    text = THREATS.read_text(encoding="utf-8")
    told = set(re.findall(r"\((?:\d+\.\d+\.\d+(?:, )?)+\)", text))
    numbers = set(re.findall(r"\d+\.\d+\.\d+", " ".join(told)))
    open_ones = {number for number, _, state, _ in rows() if state in {"not met", "in part"}}
    assert numbers == open_ones


def test_the_threat_model_is_one_page_that_ends_with_what_is_not_covered() -> None:
    text = THREATS.read_text(encoding="utf-8")
    heads = re.findall(r"^## (.+)$", text, re.MULTILINE)
    assert heads == ["What is kept", "Who may try", "What is not covered"]
    assert len(text.splitlines()) <= 80


def test_every_promise_has_what_shows_it_and_its_figures() -> None:
    text = TRUST.read_text(encoding="utf-8")
    promises = re.split(r"^## ", text, flags=re.MULTILINE)[1:]
    assert len(promises) == 10
    for promise in promises:
        name = promise.splitlines()[0]
        assert NAMED.search(promise) or TARGET.search(promise), name
        figures = promise.partition("**Figures.**")[2]
        assert re.search(r"\d", figures) or NOT_MEASURED in figures, name


def test_the_kills_that_are_told_are_those_of_the_rounds() -> None:
    rows = json.loads(CRASH.read_text(encoding="utf-8"))["moments"].values()
    kills, answered, *faults = (
        sum(row[name] for row in rows) for name in ("kills", "answered", "lost", "doubled", "half")
    )
    text = " ".join(TRUST.read_text(encoding="utf-8").split())
    assert f"{kills:,} kills" in text
    assert f"of {answered:,} things answered for 0 lost, 0 twice, 0 by half" in text
    assert faults == [0, 0, 0]


def test_the_times_for_replacing_a_weak_package_are_stated() -> None:
    text = SECURITY.read_text(encoding="utf-8")
    part = text.partition("**Packages of others.**")[2].partition("\n\n")[0]
    assert re.findall(r"\b(\d+)\s+days\b", part) == ["7", "30", "90"]
    assert "`make audit`" in part
    assert "`make sbom`" in part
