"""The command as a whole: help, examples, version, defects."""

import re
import subprocess
import sys

import pytest

from commands import Cli

COMMANDS = [
    ("read",),
    ("plan",),
    ("flight",),
    ("impact",),
    ("training", "deal"),
    ("demo",),
]


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_explains_itself_with_an_example(cli: Cli, command: tuple[str, ...]) -> None:
    outcome = cli(*command, "--help")
    assert outcome.code == 0
    assert f"  loftwright {' '.join(command)} " in outcome.out
    assert "--json" in outcome.out
    assert max(len(line) for line in outcome.out.splitlines()) <= 90


@pytest.mark.parametrize("command", COMMANDS)
def test_every_example_names_only_options_that_exist(cli: Cli, command: tuple[str, ...]) -> None:
    shown = cli(*command, "--help").out
    options, example = shown.split("Example:")
    known = set(re.findall(r"--[a-z][a-z-]*", options))
    assert set(re.findall(r"(?<=\s)--[a-z][a-z-]*", example)) <= known


def test_help_lists_every_command_and_the_exit_codes(cli: Cli) -> None:
    outcome = cli("--help")
    for word in ("read", "plan", "flight", "impact", "training", "demo", "7 no solution"):
        assert word in outcome.out


def test_the_command_alone_shows_its_help_as_wrong_use(cli: Cli) -> None:
    outcome = cli()
    assert outcome.code == 2
    assert outcome.out == ""
    assert outcome.err.startswith("Usage: loftwright")


def test_an_unknown_command_is_wrong_use(cli: Cli) -> None:
    outcome = cli("fitting", "--json")
    assert (outcome.code, outcome.error["kind"]) == (2, "usage")


def test_the_version_is_said(cli: Cli) -> None:
    assert re.fullmatch(r"loftwright \d+\.\d+\.\d+\n", cli("--version").out)


def test_a_defect_is_exit_code_1_without_a_traceback(
    cli: Cli, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.delenv("LOFTWRIGHT_DEBUG", raising=False)
    monkeypatch.setattr("loftwright.services.plan.make_plan", broken)
    outcome = cli("plan", "--clubs", 5, "--balls", 40)
    assert outcome.code == 1
    assert "Please report it" in outcome.err
    assert "Traceback" not in outcome.err


def test_help_starts_without_the_slow_libraries() -> None:
    code = (
        "import sys; from loftwright.cli.app import run; run(['--help']); "
        "print([m for m in ('numpy', 'scipy', 'numba', 'pint', 'typst', 'altair') "
        "if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"


def test_a_reader_who_has_seen_enough_breaks_nothing() -> None:
    code = (
        "import os, sys; from loftwright.cli.app import main\n"
        "sys.argv = ['loftwright', 'plan', '--clubs', '5', '--balls', '40']\n"
        "read, write = os.pipe(); os.close(read); os.dup2(write, 1)\n"
        "main()"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
