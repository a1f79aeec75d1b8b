"""A bag's clubs: what cannot be is told at its place, and the order is that of a bag."""

from dataclasses import replace

import pytest

from bags import a_bag, an_iron, irons
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.bag import MOST_IN_PLAY, Bag, BagClub, BagKind, Known, Swung, Timed
from loftwright.errors import InputError, MeasurementError


def test_a_bag_stands_kind_by_kind_and_least_loft_first() -> None:
    names = [one.name for one in a_bag().in_play]
    assert names[:3] == ["Driver", "4 wood", "4 iron"]
    assert names[-2:] == ["56 wedge", "Putter"]
    assert names[2:8] == [f"{number} iron" for number in range(4, 10)]
    assert [one.name for one in a_bag().spares] == ["7 iron, old"]


def test_where_a_loft_is_not_known_the_longest_comes_first() -> None:
    clubs = [replace(one, loft=None) if one.name == "5 iron" else one for one in irons()]
    order = [one.name for one in Bag(clubs=tuple(reversed(clubs))).in_play]
    assert order == [f"{number} iron" for number in range(4, 10)]


def test_where_neither_is_known_of_all_the_unknown_comes_last() -> None:
    bare = BagClub(name="Found one", kind=BagKind.IRON)
    order = [one.name for one in Bag(clubs=(bare, *irons())).in_play]
    assert order[-1] == "Found one"


def test_a_fifteenth_club_in_play_is_refused_and_a_spare_is_not() -> None:
    wedges = tuple(
        BagClub(name=f"Wedge {number}", kind=BagKind.WEDGE) for number in range(MOST_IN_PLAY)
    )
    with pytest.raises(InputError, match="15 clubs in play are more than a round allows"):
        Bag(clubs=(*wedges, an_iron(7)))
    assert len(Bag(clubs=(*wedges, replace(an_iron(7), spare=True))).in_play) == MOST_IN_PLAY


def test_two_clubs_share_no_name() -> None:
    with pytest.raises(InputError, match="two clubs are called '7 iron'"):
        Bag(clubs=(an_iron(7), replace(an_iron(8), name="7 Iron"), an_iron(9)))


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"name": " "}, "name"),
        ({"name": "x" * 41}, "name"),
        ({"loft": 80.0 * DEGREE}, "loft"),
        ({"length": 38.0}, "length"),
        ({"mass": 300.0}, "mass"),
        ({"balance": 3.0 * INCH}, "balance"),
        ({"swingweight": 71.0}, "swingweight"),
        ({"inertia": 2850.0}, "inertia"),
        ({"swung": Swung(pivot=0.05, period=2.0)}, "inertia"),
        ({"inertia": None, "swung": Swung(pivot=0.05, period=2.0)}, "period"),
        ({"doubts": {Known.LENGTH: 0.0}}, "length"),
        ({"length": float("nan")}, "length"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(changes: dict[str, object], place: str) -> None:
    with pytest.raises(InputError) as told:
        replace(an_iron(7), **changes)  # type: ignore[arg-type]
    assert told.value.place == place
    assert told.value.mend


def test_a_putter_may_be_bare_of_loft_and_an_iron_may_not() -> None:
    assert BagClub(name="Putter", kind=BagKind.PUTTER, loft=3.0 * DEGREE).loft is not None
    with pytest.raises(InputError, match="a loft of 3 deg cannot be"):
        BagClub(name="Iron", kind=BagKind.IRON, loft=3.0 * DEGREE)


@pytest.mark.parametrize(
    ("frequency", "clamp", "tip_mass", "place"),
    [
        (252.0, 0.127, None, "frequency"),
        (4.2, 1.27, None, "clamp"),
        (4.2, 0.127, 5.0 * GRAM, "tip_mass"),
    ],
)
def test_a_frequency_s_set_up_is_checked(
    frequency: float, clamp: float, tip_mass: float | None, place: str
) -> None:
    with pytest.raises(InputError) as told:
        Timed(frequency=frequency, clamp=clamp, tip_mass=tip_mass)
    assert told.value.place == place


def test_a_pendulum_that_cannot_have_swung_so_is_refused_when_it_is_typed() -> None:
    with pytest.raises(MeasurementError, match="less inertia"):
        BagClub(
            name="Driver",
            kind=BagKind.WOOD,
            mass=315.0 * GRAM,
            balance=33.5 * INCH,
            swung=Swung(pivot=0.05, period=1.2),
        )


def test_what_is_not_known_has_no_figure() -> None:
    putter = a_bag().club("Putter")
    assert putter is not None
    assert [known for known in Known if putter.value(known) is not None] == [Known.LENGTH]
    assert a_bag().club("Nothing") is None
