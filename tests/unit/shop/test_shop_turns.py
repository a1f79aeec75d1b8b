"""Only one writes in the shop record at a time, whichever process it is."""

import subprocess
import sys
from pathlib import Path
from time import monotonic

from loftwright.shop.record import keep, standing
from loftwright.shop.turns import turn
from shop_samples import a_fitting, shaft_effects

HOLDS = """
import sys
from pathlib import Path
from loftwright.shop.turns import turn
with turn(Path(sys.argv[1])):
    print("mine", flush=True)
    sys.stdin.read()
"""
KEEPS = """
import sys
from pathlib import Path
from loftwright.shop import record
from shop_samples import a_fitting, shaft_effects
record.part_of = lambda golfer: "00"
effects = shaft_effects(3)
for seed in range(int(sys.argv[2]), int(sys.argv[3])):
    record.keep(Path(sys.argv[1]), a_fitting(seed, effects, 4))
"""


def test_a_writer_waits_for_another_process(tmp_path: Path) -> None:
    other = subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(tmp_path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert other.stdout is not None
    assert other.stdin is not None
    assert other.stdout.readline() == "mine\n"
    waiting = subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(tmp_path)],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        waiting.wait(1.0)
    except subprocess.TimeoutExpired:
        pass
    else:
        raise AssertionError("it did not wait")
    finally:
        other.kill()
        other.communicate()
    assert waiting.communicate(timeout=60.0)[0] == "mine\n"


def test_nothing_is_lost_when_two_processes_write_into_one_file(tmp_path: Path) -> None:
    python = ("-c", f"import sys; sys.path[:] = {sys.path!r}\n{KEEPS}")
    writers = [
        subprocess.Popen([sys.executable, *python, str(tmp_path), str(first), str(first + 12)])
        for first in (0, 12)
    ]
    assert [writer.wait(120.0) for writer in writers] == [0, 0]
    assert len(standing(tmp_path)) == 24


def test_a_turn_may_be_taken_again_by_who_has_it(tmp_path: Path) -> None:
    begun = monotonic()
    with turn(tmp_path), turn(tmp_path):
        keep(tmp_path, a_fitting(1, shaft_effects(3)))
    assert monotonic() - begun < 60.0
    assert len(standing(tmp_path)) == 1
