"""Who moves something most is named, with how far, and that is what leaving them out does."""

import numpy as np
import pytest

from level_samples import BELIEF, R, shop_of, usual_shop
from loftwright.shop import level_learning
from loftwright.shop.levels import LEVELS, Belongs, known_effects
from loftwright.shop.leverage import Who, leverage_of
from loftwright.shop.told import told_by

NAMES = ("ball_speed", "launch")


def who(fittings: int) -> dict[str, Who]:
    """Return a shop of two devices in two bays, the second of both in every fourth fitting."""
    return {
        f"f{one:03d}": Who(
            golfer=f"g{one}",
            devices=("Slate" if one % 4 else "Flint",),
            bays=("Bay 1" if one % 4 else "Bay 2",),
        )
        for one in range(fittings)
    }


def test_the_golfer_who_moves_a_shaft_most_comes_first(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(level_learning, "weights_of", lambda told, *_: dict.fromkeys(told, 1.0))
    visits, truth = usual_shop(1, 40)
    grams, belongs = shop_of(1, visits, truth, {"f007": np.array([0.0, 30.0])})
    effects = known_effects(grams, BELIEF, belongs)
    found = leverage_of(grams, BELIEF, belongs, effects, who(40), NAMES)
    first = next(one for one in found if one.kind == "golfer")
    assert (first.name, first.response) == ("g7", "launch")
    assert (first.level, first.member) in belongs["f007", "c0"].members
    assert [abs(one.share) for one in found] == sorted(
        (abs(one.share) for one in found), reverse=True
    )


def test_a_share_is_what_leaving_them_out_changes() -> None:
    visits, truth = usual_shop(2, 30)
    grams, belongs = shop_of(2, visits, truth)
    effects = known_effects(grams, BELIEF, belongs)
    found = leverage_of(grams, BELIEF, belongs, effects, who(30), NAMES, least=0.0, surprising=0.0)
    told = next(one for one in found if one.kind == "bay" and one.name == "Bay 2")
    place = {one: number for number, one in enumerate(effects.members)}
    tells = told_by(
        [one for one in grams if int(one.fitting[1:]) % 4],
        BELIEF,
        {key: [place[one] for one in own.members] for key, own in belongs.items()},
    )
    variances = np.array([effects.variances[LEVELS.index(one)] for one, _ in effects.members])
    information, pull = np.diag(1.0 / variances.ravel()), np.zeros(variances.size)
    for name, one in tells.items():
        rows, weight = one.among(R), effects.counted.get(name, 1.0)
        information[np.ix_(rows, rows)] += weight * one.information
        pull[rows] += weight * one.pull
    fresh = np.linalg.solve(information, pull).reshape(-1, R)
    member, response = place[told.level, told.member], NAMES.index(told.response)
    se = np.sqrt(effects.covariance[member, response, member, response])
    change = (fresh - effects.means)[member, response] / se
    assert told.share == pytest.approx(change, abs=1e-6)


def test_a_shaft_that_one_golfer_alone_hit_is_not_called_moved() -> None:
    visits, truth = usual_shop(3, 30)
    lone = Belongs(head="H", family="F1", model="M-lone", piece="P-lone")
    visits[5] = [lone, *visits[5][1:]]
    truth = {**truth, ("model", "M-lone"): np.array([3.0, 3.0])}
    grams, belongs = shop_of(3, visits, truth)
    effects = known_effects(grams, BELIEF, belongs)
    found = leverage_of(grams, BELIEF, belongs, effects, who(30), NAMES, least=0.0, surprising=0.0)
    assert not {one.member for one in found} & {"M-lone", "P-lone"}


def test_nobody_is_listed_who_moves_little() -> None:
    visits, truth = usual_shop(4, 60)
    grams, belongs = shop_of(4, visits, truth)
    effects = known_effects(grams, BELIEF, belongs)
    listed = leverage_of(grams, BELIEF, belongs, effects, who(60), NAMES)
    assert all(abs(one.share) >= 1.0 for one in listed)
    assert len([one for one in listed if one.kind == "golfer"]) < 12
    every = leverage_of(grams, BELIEF, belongs, effects, who(60), NAMES, least=0.0, surprising=0.0)
    assert {one.kind for one in every} == {"golfer", "device", "bay"}
    assert len(every) == 64
