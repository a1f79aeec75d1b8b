"""The command line in this process, with a data folder of its own."""

from collections.abc import Callable
from pathlib import Path

import pytest

from commands import Cli, Outcome
from loftwright.cli.app import run


@pytest.fixture(autouse=True)
def _own_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
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
def dealt(cli: Cli, tmp_path: Path) -> Callable[..., Path]:
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
