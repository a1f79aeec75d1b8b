"""Which figures may be told of which kind of club."""

import pytest

from loftwright.constants import DEGREE, INCH
from loftwright.domain.club_kind import ALWAYS, Kind, Told, check_loft, kind_of, may_tell
from loftwright.errors import InputError

OUTSIDE = (Told.DELIVERY, Told.FLIGHT, Told.VALUE, Told.NOT_HIT)


@pytest.mark.parametrize(
    ("loft", "length", "kind"),
    [
        (9.0, 45.5, Kind.DRIVER),
        (12.0, 43.0, Kind.DRIVER),
        (12.0, 42.0, Kind.DRIVER),
        (10.5, 41.0, Kind.DRIVER),
        (13.0, 42.5, Kind.FAIRWAY_WOOD),
        (15.0, 42.5, Kind.FAIRWAY_WOOD),
        (17.0, 43.25, Kind.FAIRWAY_WOOD),
        (21.0, 41.5, Kind.FAIRWAY_WOOD),
        (19.0, 40.0, Kind.HYBRID),
        (31.0, 37.5, Kind.IRON),
        (56.0, 35.25, Kind.IRON),
    ],
)
def test_loft_and_length_make_a_kind(loft: float, length: float, kind: Kind) -> None:
    """Common practice, no source."""
    assert kind_of(loft * DEGREE, length * INCH) is kind


@pytest.mark.parametrize("told", Told)
def test_everything_may_be_told_of_a_driver(told: Told) -> None:
    rule = may_tell(Kind.DRIVER, told)
    assert rule.may
    assert rule.why == ""


@pytest.mark.parametrize("kind", [Kind.FAIRWAY_WOOD, Kind.HYBRID, Kind.IRON])
def test_build_rack_and_bench_hold_for_any_club_and_flight_and_value_do_not(kind: Kind) -> None:
    assert all(may_tell(kind, told).may for told in ALWAYS)
    for told in OUTSIDE:
        rule = may_tell(kind, told)
        assert not rule.may
        assert rule.why.startswith(("Not for a ", "Not for an "))


def test_every_figure_is_either_always_told_or_outside() -> None:
    assert set(Told) == ALWAYS | set(OUTSIDE)


def test_an_iron_takes_its_article() -> None:
    assert may_tell(Kind.IRON, Told.FLIGHT).why.startswith("Not for an iron.")


@pytest.mark.parametrize(
    ("loft", "length"), [(10.5, 45.5), (20.0, 43.5), (31.0, 37.5), (21.0, 42.0)]
)
def test_a_loft_that_goes_with_its_length_is_taken(loft: float, length: float) -> None:
    check_loft(loft * DEGREE, length * INCH)


@pytest.mark.parametrize("loft", [20.5, 31.0, 45.0])
def test_a_driver_with_the_loft_of_an_iron_is_a_slip(loft: float) -> None:
    with pytest.raises(InputError, match=f"a driver of {loft} deg cannot be used") as caught:
        check_loft(loft * DEGREE, 45.5 * INCH)
    assert "4 to 20 deg" in caught.value.mend
