"""A full disk is told clearly wherever it is met, and leaves nothing half."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import cramped

TESTS = Path(cramped.__file__).parent


@pytest.mark.parametrize("job", sorted(cramped.JOBS))
def test_what_finds_no_room_is_refused_whole_and_taken_when_there_is_room(
    tmp_path: Path, job: str
) -> None:
    paths = os.pathsep.join(filter(None, (str(TESTS), os.environ.get("PYTHONPATH", ""))))
    done = subprocess.run(
        [sys.executable, str(TESTS / "cramped.py"), job, str(tmp_path)],
        env=os.environ | {"PYTHONPATH": paths},
        capture_output=True,
        text=True,
        check=False,
        timeout=120.0,
    )
    assert done.returncode == 0, done.stderr
    if job == "feed":
        assert int(done.stdout) > 0
