"""A program that is killed while it writes loses no ball it has answered for."""

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from loftwright.domain.acts import ShotArrived
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store

PROGRAM = Path(__file__).with_name("appending.py")
ROUNDS = 30
OPENINGS = 12
APART = 100_000
"""Numbers between the first balls of two rounds."""


class Writer:
    """The program that is to be killed."""

    def __init__(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, str(PROGRAM)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def killed_after(
        self, seconds: float, folder: Path, start: int, *, word: str = ""
    ) -> set[str]:
        """Let a child write, kill it some seconds after it said a word, and return all it said."""
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(f"{folder}\t{start}\n")
        self.process.stdin.flush()
        said: list[str] = []
        child = 0
        while not child or (word and word not in said):
            one = self.process.stdout.readline().strip()
            assert one not in {"", "gone"}, "the program ended by itself"
            child = int(one.removeprefix("child ")) if one.startswith("child ") else child
            said.append(one)
        time.sleep(seconds)
        os.kill(child, signal.SIGKILL)
        while said[-1] != "gone":
            said.append(self.process.stdout.readline().strip())
            assert said[-1], "the program ended by itself"
        return {one for one in said if one.isdigit()}

    def end(self) -> None:
        """Let the program go."""
        self.process.communicate()


@pytest.fixture
def writer() -> Iterator[Writer]:
    """Return the program that is to be killed."""
    made = Writer()
    yield made
    made.end()


def checked(folder: Path) -> None:
    """Check that the file is sound by the database's own judgement."""
    door = sqlite3.connect(folder / FILE)
    assert door.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert door.execute("PRAGMA foreign_key_check").fetchall() == []
    door.close()


def test_every_ball_that_was_answered_for_is_there_once_after_thirty_kills(
    writer: Writer, tmp_path: Path
) -> None:
    chance = random.Random(20260514)
    answered: set[str] = set()
    for kill in range(ROUNDS):
        start = APART * (kill + 1)
        answered |= writer.killed_after(chance.uniform(0.0, 0.1), tmp_path, start, word=str(start))
    store = open_store(tmp_path)
    record = store.record("f1")
    store.close()
    balls = [entry for entry in record if isinstance(entry.act, ShotArrived)]
    kept = [entry.key for entry in balls]
    assert len(kept) == len(set(kept))
    assert answered <= set(kept)
    # A kill may fall between the disk's answer and the word of it, once a round.
    assert len(kept) - len(answered) <= ROUNDS
    assert [entry.sequence for entry in record] == list(range(1, len(record) + 1))
    assert len(record) == 2 * len(balls)
    for entry in balls:
        assert isinstance(entry.act, ShotArrived)
        assert entry.act.line == f"line {entry.key}"
        assert entry.act.numbers.ball_speed == float(entry.key)
    checked(tmp_path)


def test_a_store_whose_making_was_killed_is_made_at_the_next_opening(
    writer: Writer, tmp_path: Path
) -> None:
    chance = random.Random(7)
    for kill in range(OPENINGS):
        folder = tmp_path / str(kill)
        answered = writer.killed_after(chance.uniform(0.0, 0.3), folder, APART)
        answered |= writer.killed_after(0.01, folder, 2 * APART, word=str(2 * APART))
        store = open_store(folder)
        kept = {entry.key for entry in store.record("f1")}
        assert store.identity("g1").name == "Nobody"
        store.close()
        assert answered <= kept
        checked(folder)
