"""A comparison says which conditions were not the same for every club."""

from loftwright.bay.confounders import confounders, range_balls
from loftwright.domain.acts import HandedOver, NotOurs, OddBall, StripChanged, Vetoed
from loftwright.domain.fitting import Strip
from records import Record

MAT = Strip(ball="premium, new", tee="38", surface="mat", place="indoors", treatment="spray")
HIGHER = Strip(ball="premium, new", tee="45", surface="mat", place="indoors", treatment="spray")


def record() -> Record:
    begun = Record().open("Own", "Ash")
    begun.add(StripChanged(strip=MAT))
    begun.balls(3)
    return begun


def test_equal_conditions_raise_no_doubt() -> None:
    begun = record()
    begun.add(HandedOver(club="Ash"))
    begun.balls(3)
    assert confounders(begun.now) == ()


def test_a_tee_that_changes_with_the_club_cannot_be_told_from_it() -> None:
    begun = record()
    begun.add(HandedOver(club="Ash"))
    begun.add(StripChanged(strip=HIGHER))
    begun.balls(3)
    (found,) = confounders(begun.now)
    assert found.condition == "tee"
    assert found.values == (("38", ("Own",)), ("45", ("Ash",)))
    assert found.apart == (("Own", "Ash"),)
    assert found.say == (
        "From ball 4 on the tee height differs (38: Own; 45: Ash): "
        "Own against Ash may be that and not the club."
    )


def test_a_change_that_every_club_shares_is_said_more_mildly() -> None:
    begun = record()
    begun.add(HandedOver(club="Ash"))
    begun.balls(2)
    begun.add(StripChanged(strip=HIGHER))
    begun.balls(2)
    begun.add(HandedOver(club="Own"))
    begun.balls(2)
    (found,) = confounders(begun.now)
    assert found.apart == ()
    assert found.say == "From ball 6 on the tee height differs (38: Own, Ash; 45: Own, Ash)."


def test_what_nobody_said_is_no_difference() -> None:
    begun = Record().open("Own", "Ash")
    begun.balls(2)
    begun.add(StripChanged(strip=MAT))
    begun.add(HandedOver(club="Ash"))
    begun.balls(2)
    assert confounders(begun.now) == ()


def test_balls_that_do_not_count_make_no_doubt() -> None:
    begun = record()
    begun.add(StripChanged(strip=HIGHER))
    ghost, odd = begun.balls(2)
    begun.add(NotOurs(ball=ghost))
    assert len(confounders(begun.now)) == 1
    begun.add(OddBall(ball=odd))
    assert confounders(begun.now) == ()


def test_a_club_that_is_out_makes_no_doubt() -> None:
    begun = record()
    begun.add(HandedOver(club="Ash"))
    begun.add(StripChanged(strip=HIGHER))
    begun.balls(2)
    begun.add(Vetoed(club="Ash"))
    assert confounders(begun.now) == ()


def test_range_balls_are_known_by_their_name() -> None:
    begun = Record().open("Own")
    begun.add(StripChanged(strip=Strip(ball="Range ball, worn")))
    assert not range_balls(begun.now)
    begun.ball()
    assert range_balls(begun.now)
