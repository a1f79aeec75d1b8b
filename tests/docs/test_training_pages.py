"""What the pages on training cases show is what the program reads, prints and answers."""

import io
import re
from collections.abc import Iterator

import pytest

from commands import Cli
from loftwright.training import case_files
from loftwright.training.case_files import read_case
from pages import ROOT

REFERENCE = ROOT / "docs" / "reference"


def section(page: str, title: str) -> str:
    """Return what stands under a heading of the second level of a page of the reference."""
    text = (REFERENCE / page).read_text(encoding="utf-8")
    return text.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def keys_in(record: object) -> Iterator[str]:
    if isinstance(record, dict):
        for key, value in record.items():
            yield key
            yield from keys_in(value)
    elif isinstance(record, list):
        for value in record:
            yield from keys_in(value)


def test_the_session_shown_is_what_is_answered(cli: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    page = (ROOT / "docs/howto/train-with-cases.md").read_text(encoding="utf-8")
    block = re.search(r"```text\n(.*?)```", page, flags=re.DOTALL)
    assert block is not None
    lines = block[1].splitlines()
    typed = [line.removeprefix("> ") for line in lines if line.startswith("> ")]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join([*typed, ""])))
    printed = cli("training", "play", "larkspur").out
    answered = [line for line in lines if not line.startswith("> ")]
    assert printed.endswith("\n".join([*answered, ""]))


def test_every_key_of_cases_and_play_is_documented(
    cli: Cli, monkeypatch: pytest.MonkeyPatch
) -> None:
    sets = ("Own 3", "Ash 3", "Birch 3") * 3
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join([*sets, "help", "call Own", ""])))
    for command, record in (
        ("training cases", cli("training", "cases", "--json").record),
        ("training play", cli("training", "play", "larkspur", "--json").record),
    ):
        shown = set(re.findall(r"`([a-z0-9_]+)`", section("json.md", command)))
        assert set(keys_in(record)) - shown == set(), command


def test_the_case_shown_is_read_and_every_key_of_a_case_is_in_the_table() -> None:
    part = section("files.md", "Training cases")
    block = re.search(r"```toml\n(.*?)```", part, flags=re.DOTALL)
    assert block is not None
    case = read_case(block[1], "shown")
    assert (case.golfer, case.dropped) == ("Ida Cowslip", (11,))
    table = " ".join(line for line in part.splitlines() if line.startswith("| "))
    documented = set(re.findall(r"`([a-z_]+)`", table))
    for keys in ("_CASE", "_CLUB", "_SPELL", "_WARM_UP", "SWING_KEYS"):
        assert set(getattr(case_files, keys)) - documented == set()
