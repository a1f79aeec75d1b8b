"""What a command of the command line said, and the fixtures that run one in this process.

A folder of tests takes the fixtures by importing them into its conftest.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from loftwright.cli.app import run


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a command said."""

    code: int
    out: str
    err: str

    @property
    def record(self) -> dict[str, Any]:
        """The JSON object on standard output."""
        made: dict[str, Any] = json.loads(self.out, parse_constant=_refuse)
        return made

    @property
    def error(self) -> dict[str, Any]:
        """The JSON error object on standard error."""
        made: dict[str, Any] = json.loads(self.err)["error"]
        return made


def _refuse(constant: str) -> None:
    raise AssertionError(f"{constant} in JSON")


Cli = Callable[..., Outcome]
Dealt = Callable[..., Path]


@pytest.fixture(autouse=True)
def own_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep what commands remember in a folder of the test."""
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path / "data"))


@pytest.fixture
def cli(capsys: pytest.CaptureFixture[str]) -> Cli:
    """Return a function that runs one command."""

    def call(*arguments: object) -> Outcome:
        capsys.readouterr()
        code = run([str(argument) for argument in arguments])
        said = capsys.readouterr()
        return Outcome(code=code, out=said.out, err=said.err)

    return call


@pytest.fixture
def dealt(cli: Cli, tmp_path: Path) -> Dealt:
    """Return a function that deals a shot table and gives its path; the truth lies beside it."""

    def deal(*more: object, seed: int = 7, clubs: int = 4, balls: int = 24) -> Path:
        shots = tmp_path / f"shots-{seed}.csv"
        outcome = cli(
            *("training", "deal", "--seed", seed, "--clubs", clubs, "--balls", balls),
            *("--out", shots, "--truth", shots.with_suffix(".json"), *more),
        )
        assert outcome.code == 0, outcome.err
        return shots

    return deal
