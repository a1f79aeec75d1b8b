"""A simulated pick-up, and the tables made of many."""

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE
from loftwright.domain.check_acts import Against
from loftwright.training.golfer import FACE, HEAD_SPEED, LOFT, make_golfer
from loftwright.training.pick_up_study import (
    DAYS,
    FIRST_DAY,
    MADE,
    ability_of,
    answer,
    pick_up,
    to_record,
)
from loftwright.training.pick_up_tables import (
    ANSWERS,
    SAME,
    ever_not,
    page_lines,
    share,
    would_tell,
)
from loftwright.training.truth_study import ABILITIES

ROTATION = "6 tested, 8 built"


def a_record(
    against: Against, *, more: int | None = None, ever: bool = False
) -> dict[str, object]:
    return {"against": against, "more": more, "ever_not": ever, "ability": "low"}


RECORDS = [
    a_record(Against.CONSISTENT),
    a_record(Against.CANNOT_TELL, more=3),
    a_record(Against.CANNOT_TELL, ever=True),
    a_record(Against.NOT, ever=True),
]


def made(name: str) -> FloatArray:
    golfer = make_golfer("low", np.random.default_rng(1))
    return MADE[name](golfer, np.random.default_rng(2)).shift


def test_what_is_built_differs_as_its_row_says() -> None:
    assert not made("the same club").any()
    assert made("face 2 degrees open")[FACE] == pytest.approx(2.0 * DEGREE)
    assert -1.8 * DEGREE < made("1 degree strong")[LOFT] < -0.2 * DEGREE
    assert made("3 g more in the head")[HEAD_SPEED] < 0.0


def test_a_head_with_three_grams_more_is_as_swung_slower_and_as_heavy() -> None:
    """Of 200 g and 2850 kg cm^2: -0.26 times 1.3 % of the speed."""
    golfer = make_golfer("low", np.random.default_rng(1))
    found = MADE["3 g more in the head"](golfer, np.random.default_rng(2))
    assert found.head.mass - golfer.head.mass == pytest.approx(0.003)
    assert found.shift[HEAD_SPEED] / golfer.mean[HEAD_SPEED] == pytest.approx(-0.0035, abs=1e-4)


def test_a_sample_within_tolerance_stays_within_it() -> None:
    golfer = make_golfer("mid", np.random.default_rng(1))
    for seed in range(50):
        found = MADE["another sample, within tolerance"](golfer, np.random.default_rng(seed))
        assert abs(found.shift[[LOFT, FACE]]).max() <= 0.5 * DEGREE
        assert found.head is not golfer.head


def test_the_second_day_goes_by_its_sets() -> None:
    assert DAYS[ROTATION].sequence.tolist() == [1] * 3 + [3] * 4 + [1] * 3 + [3] * 4
    assert [name for name, day in DAYS.items() if not day.of_the_tested] == [
        "tested on the first day, 6 own, 8 built"
    ]


def test_the_last_look_is_the_answer() -> None:
    found = pick_up(SAME, ROTATION, "mid", 3)
    assert found[-1] == answer(SAME, ROTATION, "mid", 3)
    assert found[-1].built == 8
    assert found[-1].tested == FIRST_DAY // 3 + 6


def test_rows_share_golfer_form_and_first_day() -> None:
    """Only the built club parts two rows: its tested balls are the same."""
    one, other = (answer(name, ROTATION, "mid", 3) for name in (SAME, "3 degrees strong"))
    assert one.tested == other.tested
    strong, same = (
        next(one for one in found.numbers if one.name == "launch") for found in (other, one)
    )
    assert strong.built < same.built
    assert strong.tested == pytest.approx(same.tested, abs=0.5 * DEGREE)


def test_abilities_go_round() -> None:
    assert {ability_of(number) for number in range(1, 1 + len(ABILITIES))} == set(ABILITIES)


def test_a_record_says_what_was_said() -> None:
    found = to_record((answer("3 degrees strong", ROTATION, "tour", 2),))
    assert found["against"] in ANSWERS
    assert found["ever_not"] is bool(found["differs"])


def test_shares_are_in_per_cent() -> None:
    assert [share(RECORDS, one).mean for one in ANSWERS] == [25.0, 25.0, 50.0]
    assert ever_not(RECORDS).mean == 50.0
    told = would_tell(RECORDS)
    assert told is not None
    assert told.mean == 50.0
    assert would_tell(RECORDS[:2]) is None


def test_the_page_has_a_table_a_day_one_by_golfer_and_one_of_looks() -> None:
    lines = page_lines({(ROTATION, SAME): RECORDS, ("another day", SAME): RECORDS}, [ROTATION])
    heads = [line for line in lines if line.startswith("## ")]
    assert heads == [
        f"## {ROTATION}",
        "## Another day",
        "## By golfer",
        "## Looked at after every ball",
    ]
    assert "| the same club | 25 / 25 |" in lines
    assert lines[-1] == f"| {ROTATION} | 25.0 ± 25.0 | 50.0 ± 28.9 |"
