"""What a file could have shown follows from its balls, their scatter and its columns."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls
from loftwright.constants import YARD
from loftwright.domain.device import Column, Origin
from loftwright.domain.home import Home
from loftwright.domain.shot import Shot, ShotTable
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import compare, decide
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.power import balls_needed, difference_between, difference_seen
from loftwright.evidence.result import Decision
from loftwright.evidence.visit import Beliefs
from loftwright.report.could_show import could_show, could_show_record, could_show_sentences

EVERYTHING = (
    *("ball speed", "launch", "spin", "direction", "axis"),
    *("head speed", "attack", "path", "face", "strike toe", "strike high"),
)


def table_with(*measured: str, calculated: tuple[str, ...] = ()) -> ShotTable:
    columns = []
    for means in EVERYTHING:
        origin = Origin.MEASURED if means in measured else Origin.ABSENT
        origin = Origin.CALCULATED if means in calculated else origin
        columns.append(Column(column="", means=means, unit="", origin=origin, source=""))
    return ShotTable(read=0, shots=(), refused=(), columns=tuple(columns))


def decided(clubs: int = 3, balls: int = 24) -> Decision:
    return decide(compare(made_balls(1, clubs=clubs, balls=balls), Home(), Beliefs()), Budget())


def test_a_difference_of_two_clubs_takes_the_balls_of_both() -> None:
    assert difference_between(8, 8, 9.0) == pytest.approx(difference_seen(8, 9.0))
    assert difference_between(2, 200, 9.0) > difference_between(8, 8, 9.0)
    assert balls_needed(difference_between(16, 16, 9.0), 9.0) == 16


def test_each_club_is_told_from_the_own_one_by_its_balls_and_the_scatter_of_one() -> None:
    decision = decided()
    found = could_show(decision, table_with(*EVERYTHING))
    assert decision.pattern is not None
    assert found.scatter == decision.pattern.total
    own = next(one for one in found.clubs if one.club == "Own")
    assert (own.against, own.difference) == ("", None)
    for one in found.clubs:
        if one.club != "Own":
            assert one.against == "Own"
            assert one.difference == pytest.approx(difference_between(8, 8, found.scatter))


def test_the_sentence_gives_the_least_difference_and_the_scatter() -> None:
    decision = decided()
    found = could_show(decision, table_with(*EVERYTHING))
    (sentence,) = could_show_sentences(found)
    least = min(one.difference for one in found.clubs if one.difference is not None)
    assert f"differences in total under {least / YARD:.0f} yd could hardly be told" in sentence
    assert f"one ball scatters by {(found.scatter or 0.0) / YARD:.0f} yd" in sentence


def test_one_ball_each_tells_nothing_apart() -> None:
    found = could_show(decided(clubs=3, balls=3), table_with(*EVERYTHING))
    assert all(one.difference is None for one in found.clubs)
    assert could_show_sentences(found)[0].startswith("no two clubs")


@pytest.mark.parametrize(
    ("measured", "calculated", "words"),
    [
        (EVERYTHING[:5], (), "no strike toe or strike high: it could not tell whether the club"),
        (EVERYTHING[:5], (), "no head speed, attack, path or face: it could not tell"),
        (EVERYTHING[:6], (), "no attack, path or face: it tells only in part"),
        (EVERYTHING[:5], ("face",), "face was calculated, not measured: it could not tell"),
        (EVERYTHING[:2], (), "no spin: it could not tell the total at home"),
        (EVERYTHING[:4], (), "no axis: it could not tell where a club starts and curves"),
    ],
)
def test_what_a_column_that_was_not_measured_closes_is_named(
    measured: tuple[str, ...], calculated: tuple[str, ...], words: str
) -> None:
    found = could_show(decided(), table_with(*measured, calculated=calculated))
    assert any(sentence.startswith(words) for sentence in could_show_sentences(found))


def test_with_everything_measured_nothing_is_closed() -> None:
    assert could_show(decided(), table_with(*EVERYTHING)).closed == ()


def test_by_the_devices_carry_the_scatter_is_that_of_its_carries() -> None:
    balls = made_balls(1, clubs=2, balls=12)
    carry = 200.0 + 8.0 * np.random.default_rng(2).standard_normal(12)
    launch = balls.launch.copy()
    launch[:, 1:] = np.nan
    decision = decide_on_carry(replace(balls, launch=launch, carry=carry), Beliefs(), Budget())
    shots = tuple(
        Shot(row=2 + place, order=place, club=balls.clubs[club], carry=float(carry[place]))
        for place, club in enumerate(balls.club)
    )
    found = could_show(decision, replace(table_with("ball speed"), shots=shots, read=12))
    apart = carry - np.array([carry[balls.club == club].mean() for club in balls.club])
    assert found.figure == "carry as this device shows it"
    assert found.scatter == pytest.approx(np.sqrt((apart**2).sum() / 10))
    record = could_show_record(found)
    assert record["clubs"][0]["balls"] == 6
    assert record["scatter_yd"] == pytest.approx((found.scatter or 0.0) / YARD, abs=0.06)
