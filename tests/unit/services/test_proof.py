"""The shop's proof: shares with errors that take each fitting as one."""

from dataclasses import replace
from math import sqrt

import pytest

from bays import a_bay
from loftwright.domain.prediction import Rests
from loftwright.services.evidence import Desk
from loftwright.services.predicting import predict_next
from loftwright.services.proof import FEWEST, Proof, proof_of, share_of, tally
from loftwright.services.proof_words import (
    proof_lines,
    proof_objection,
    proof_record,
    proof_sentence,
)
from loftwright.services.scoring import Fate, Scored

IN, OUT = (True, True, True), (False, False, False)
MIDDLE = (False, True, True)


def a_ball(
    place: int,
    *,
    fitting: str = "f1",
    fate: Fate = Fate.SCORED,
    inside: tuple[bool, bool, bool] = IN,
    bay: str = "Bay 1",
    quantities: tuple[str, ...] = ("ball_speed", "total"),
) -> Scored:
    return Scored(
        fitting=fitting,
        sequence=place,
        fate=fate,
        bay=bay,
        device="meter",
        club="Harrow 460, Reedmace",
        rests=Rests.BALLS if fate is Fate.SCORED else None,
        inside=dict.fromkeys(quantities, inside) if fate is Fate.SCORED else {},
    )


def some(inside: int, outside: int, *, fitting: str = "f1", bay: str = "Bay 1") -> list[Scored]:
    held = [a_ball(place, fitting=fitting, bay=bay, inside=MIDDLE) for place in range(inside)]
    missed = [a_ball(place, fitting=fitting, bay=bay, inside=OUT) for place in range(outside)]
    return held + missed


def test_a_share_is_that_of_all_balls_and_its_error_that_of_fittings() -> None:
    balls = [("a", True)] * 8 + [("a", False)] * 2 + [("b", True)] * 15 + [("b", False)] * 5
    found = share_of(balls)
    assert found.share == pytest.approx(23 / 30)
    off = 8 - 10 * 23 / 30
    assert found.error == pytest.approx(sqrt(2 * 2 * off**2) / 30)


def test_one_fitting_has_no_error() -> None:
    assert share_of([("a", True), ("a", False)]).error is None


def test_fittings_that_agree_ball_by_ball_have_a_smaller_error_than_those_that_do_not() -> None:
    alike = [(f"{one}", ball < 8) for one in range(6) for ball in range(10)]
    apart = [(f"{one}", ball < (10 if one % 2 else 6)) for one in range(6) for ball in range(10)]
    agreed, differed = share_of(alike), share_of(apart)
    assert agreed.share == differed.share == pytest.approx(0.8)
    assert agreed.error == pytest.approx(0.0)
    assert differed.error is not None
    assert differed.error > 0.05


def test_every_ball_is_counted_once_by_its_fate() -> None:
    balls = [
        *some(40, 10),
        a_ball(60, fate=Fate.NOT_PREDICTED),
        a_ball(61, fate=Fate.NOT_PREDICTED),
        a_ball(62, fate=Fate.CHANGED),
    ]
    proof = tally(balls)
    assert (proof.balls, proof.not_predicted, proof.changed) == (50, 2, 1)
    told = proof.of("total")
    assert told is not None
    assert [one.share for one in told.shares] == [0.0, 0.8, 0.8]


def test_below_fifty_balls_no_share_is_said() -> None:
    proof = tally(some(40, 9))
    told = proof.of("total")
    assert told is not None
    assert told.shares == ()
    assert proof_sentence(proof) == f"Too few to say: 49 balls predicted, and it takes {FEWEST}."
    assert proof_record(proof)["quantities"][0]["in_80"] is None
    assert "too few" in "\n".join(proof_lines(proof))


def test_the_sentence_says_balls_share_and_range() -> None:
    balls = [
        one
        for fitting in range(31)
        for one in some(32 - fitting % 2, 8 + fitting % 2, fitting=f"f{fitting}")
    ]
    proof = tally(balls)
    assert proof_sentence(proof) == "Of 1,240 balls 79 % fell in the 80 % range of total."
    assert proof_objection(proof).startswith("Standard error 0.2 %, over 31 fittings: ")


def test_it_says_when_ranges_are_too_narrow_or_too_wide() -> None:
    narrow = [one for name in "abcdef" for one in some(6, 4, fitting=name)]
    wide = [one for name in "abcdef" for one in some(10, 0, fitting=name)]
    right = [*some(10, 0, fitting="a"), *some(22, 8, fitting="b"), *some(8, 2, fitting="c")]
    assert "narrower than they may be" in proof_objection(tally(narrow))
    assert "wider than they need be" in proof_objection(tally(wide))
    assert "chance explains" in proof_objection(tally(right))
    assert "one fitting" in proof_objection(tally(some(40, 10)))


def test_bays_are_told_apart_the_busiest_first() -> None:
    proof = tally([*some(50, 10), *some(60, 40, fitting="f2", bay="Bay 2")])
    bays = [group for group in proof.groups if group.by == "bay"]
    assert [group.name for group in bays] == ["Bay 2", "Bay 1"]
    told = bays[0].of("total")
    assert told is not None
    assert told.shares[1].share == pytest.approx(0.6)
    lines = "\n".join(proof_lines(proof))
    assert "Bay 2" in lines
    assert "balls with the same club" in lines


def test_without_totals_another_quantity_is_told() -> None:
    balls = [a_ball(place, quantities=("ball_speed",)) for place in range(50)]
    assert "range of ball speed" in proof_sentence(tally(balls))


def test_a_shop_without_balls_says_so() -> None:
    proof = tally([])
    assert proof_sentence(proof) == "No ball was predicted yet."
    assert proof_lines(proof)[1] == "A ball is predicted once its club was handed over."
    alone = tally([a_ball(1, fate=Fate.NOT_PREDICTED)])
    assert proof_objection(alone) == "1 ball came without a prediction."


def test_invented_golfers_are_no_proof_of_the_shop() -> None:
    bay = a_bay()
    desk = Desk()
    bay.hand("Ash")
    for _ in range(4):
        predict_next(bay.studio, desk, bay.fitting)
        bay.ball()

    def both() -> tuple[Proof, Proof]:
        return proof_of(bay.studio), proof_of(bay.studio, invented=True)

    real, made_up = both()
    assert (real.balls, real.not_predicted, made_up.balls) == (3, 1, 0)
    kept = bay.studio.store.fitting(bay.fitting)
    bay.studio.store.change_fitting(replace(kept.value, invented=True), version=kept.version)
    real, made_up = both()
    assert (real.balls, made_up.balls) == (0, 3)
    assert "of invented golfers" in proof_sentence(made_up)
