"""A program that is killed while it writes loses no ball it has answered for."""

import random
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store

PROGRAM = Path(__file__).with_name("appending.py")
ROUNDS = 30


def test_every_ball_that_was_answered_for_is_there_once_after_thirty_kills(
    tmp_path: Path,
) -> None:
    chance = random.Random(20260514)
    answered: list[int] = []
    for kill in range(ROUNDS):
        process = subprocess.Popen(
            [sys.executable, str(PROGRAM), str(tmp_path), str(100000 * (kill + 1))],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert process.stdout is not None
        answered.append(int(process.stdout.readline()))
        time.sleep(chance.uniform(0.0, 0.15))
        process.kill()
        answered += [int(line) for line in process.stdout.read().split("\n")[:-1] if line]
        process.wait()
        process.stdout.close()
    store = open_store(tmp_path)
    record = store.record("f1")
    store.close()
    kept = [entry.key for entry in record]
    assert len(kept) == len(set(kept))
    assert {str(number) for number in answered} <= set(kept)
    assert len(kept) - len(answered) <= ROUNDS
    assert [entry.sequence for entry in record] == list(range(1, len(record) + 1))
    door = sqlite3.connect(tmp_path / FILE)
    assert door.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    door.close()
