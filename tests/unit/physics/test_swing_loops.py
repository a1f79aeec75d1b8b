"""The compiled loops of a swing against their own Python."""

from types import ModuleType

import numpy as np
import pytest
from numba.core.dispatcher import Dispatcher

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing import _matrices, _steps
from loftwright.physics.shaft_swing._steps import NEVER_STRUCK, NOT_POSITIVE, STRUCK, Ended
from loftwright.physics.shaft_swing.players import QUICK_LATE
from loftwright.physics.shaft_swing.swings import grip_motion
from swung_shafts import shaft

CLUB = shaft().numbers
SIZE = 2 + 2 * len(CLUB.frequencies)
STEPS = 30
PLAYER = QUICK_LATE.numbers._replace(start=-0.6, cock=-0.3)
# A millimetre before the head as it starts.
NEAR = 1e-3 + _matrices.head_across(
    np.array([PLAYER.start, PLAYER.cock, *np.zeros(SIZE - 2)]), CLUB, PLAYER
)
NO_GRIP = np.zeros((0, 6))
NO_GRIP.flags.writeable = False


def run(driven: FloatArray, line: float, rows: int) -> tuple[Ended, FloatArray, FloatArray]:
    """Swing on for some steps from near the ball; return how it ended, the impact, the record."""
    struck, record = np.zeros(2 * SIZE), np.zeros((rows, 3 * SIZE))
    ended = _steps.swing_through(*(CLUB, PLAYER, driven, 1e-3, STEPS, line, 3, struck, record))
    return ended, struck, record


def made_plain(monkeypatch: pytest.MonkeyPatch, module: ModuleType) -> None:
    for name, value in list(vars(module).items()):
        if isinstance(value, Dispatcher):
            monkeypatch.setattr(module, name, value.py_func)


@pytest.mark.parametrize(
    ("line", "rows", "status"),
    [(NEAR, STEPS + 1, STRUCK), (NEAR, 0, STRUCK), (9.0, STEPS + 1, NEVER_STRUCK)],
)
def test_a_swing_is_the_same_in_plain_python(
    monkeypatch: pytest.MonkeyPatch, line: float, rows: int, status: int
) -> None:
    compiled = run(NO_GRIP, line, rows)
    for module in (_matrices, _steps):
        made_plain(monkeypatch, module)
    plain = run(NO_GRIP, line, rows)
    assert compiled[0].status == status
    assert plain[0] == pytest.approx(compiled[0], rel=1e-12)
    for one, other in zip(plain[1:], compiled[1:], strict=True):
        assert one == pytest.approx(other, rel=1e-9, abs=1e-12)
        assert status == NEVER_STRUCK or rows == 0 or np.any(other != 0.0)


def test_a_replay_is_the_same_in_plain_python(monkeypatch: pytest.MonkeyPatch) -> None:
    grip = grip_motion(shaft(), QUICK_LATE)
    compiled = run(grip.rows, 9.0, STEPS + 1)
    for module in (_matrices, _steps):
        made_plain(monkeypatch, module)
    plain = run(grip.rows, 9.0, STEPS + 1)
    assert plain[2] == pytest.approx(compiled[2], rel=1e-9, abs=1e-12)
    assert np.all(plain[2][1:, :2] == grip.rows[2 : 2 * STEPS + 1 : 2, :2])


def test_a_matrix_that_breaks_down_ends_the_run(monkeypatch: pytest.MonkeyPatch) -> None:
    for module in (_matrices, _steps):
        made_plain(monkeypatch, module)
    broken = CLUB._replace(masses=-CLUB.masses * 1e3)
    ended = _steps.swing_through(
        *(broken, QUICK_LATE.numbers, NO_GRIP, 4e-4, 5, 0.08, 0),
        *(np.zeros(2 * SIZE), np.zeros((0, 3 * SIZE))),
    )
    assert (ended.status, ended.time) == (NOT_POSITIVE, 0.0)
