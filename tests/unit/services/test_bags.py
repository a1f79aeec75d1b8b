"""A bag is kept under the golfer's key; the last change can be put back."""

from dataclasses import replace
from datetime import date

import pytest

from bags import a_bag, an_iron
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.bag import Bag, BagKind, Known
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order import ClubSpec, Kept, Quote
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.terms import CalibrationClub, Terms
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.intake.build_text import toml_text
from loftwright.physics.build.swingweight import USUAL_SCALE
from loftwright.services.bag_sources import FROM_CHECK, FROM_RACK, OWN, offered, taken_over
from loftwright.services.bags import (
    keep_bag,
    put_back,
    read_bag,
    with_club,
    with_clubs,
    without_club,
)
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.job import job_act
from loftwright.services.studio import Studio
from studios import a_club, a_head, studio_in_memory

MEASURED = toml_text(
    {
        "length_inch.value": 45.25,
        "length_inch.u95": 0.04,
        "mass_g.value": 316.0,
        "mass_g.u95": 0.6,
        "balance_inch.value": 33.5,
        "balance_inch.u95": 0.05,
        "swingweight.value": "D3",
        "swingweight.u95": 0.4,
        "frequency_cpm.value": 252.0,
        "frequency_cpm.u95": 1.5,
        "frequency_cpm.clamp_mm": 127.0,
        "frequency_cpm.tip_mass_g": 205.0,
    }
)
SPEC = ClubSpec(
    label="Ash",
    club="Ash",
    assembly="a",
    hand=Hand.RIGHT,
    kept=Kept.NOTHING,
    head="Wayfarer 10.5",
    shaft="Reed",
    grip="",
    head_piece="h",
    shaft_piece="s",
    loft=10.5 * DEGREE,
    lie=58.0 * DEGREE,
    face=0.0,
    setting="",
    settings=(),
    length=45.25 * INCH,
    hit=True,
    promise=None,
)
QUOTE = Quote(
    spec=SPEC,
    lines=(),
    tax=0.0,
    deposit=0.0,
    currency="EUR",
    lead_days=14,
    valid_until=date(2026, 12, 24),
)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def a_golfer(studio: Studio) -> str:
    return add_golfer(studio, Golfer(id=""), Identity(name="Ottoline (invented)")).id


def a_fitting(studio: Studio, golfer: str) -> Fitting:
    return open_fitting(studio, golfer, bay="Bay")


def built(studio: Studio, golfer: str, *, measured: str = MEASURED, **more: object) -> str:
    """Keep a job of a golfer whose club passed its final check, and return its fitting."""
    fitting = a_fitting(studio, golfer).id
    received = Received(measured=measured, looked={}, outcome=Outcome.ACCEPT, second="B.")
    received = replace(received, **more)  # type: ignore[arg-type]
    job_act(studio, fitting, [Quoted(quote=QUOTE)])
    job_act(studio, fitting, [Agreed(name="O.")])
    job_act(studio, fitting, [received])
    return fitting


def test_a_bag_comes_back_as_it_was_kept(studio: Studio) -> None:
    golfer = a_golfer(studio)
    assert read_bag(studio, golfer).bag == Bag()
    bag = replace(with_club(a_bag(), an_iron(7), "7 iron"), local_length=True)
    version = keep_bag(studio, golfer, bag, version=0)
    found = read_bag(studio, golfer)
    assert found.bag == bag
    assert found.version == version
    with pytest.raises(ConflictError):
        keep_bag(studio, golfer, Bag(), version=0)


def test_the_last_change_is_put_back_and_brought_again() -> None:
    bag = without_club(a_bag(), "7 iron")
    assert bag.change == "taking 7 iron out"
    assert bag.club("7 iron") is None
    before = put_back(bag)
    assert before.clubs == a_bag().clubs
    assert put_back(before).clubs == bag.clubs
    with pytest.raises(NotFoundError):
        put_back(Bag())


def test_a_changed_club_keeps_its_place() -> None:
    bag = with_club(a_bag(), replace(an_iron(7), name="7 iron, bent"), "7 iron")
    assert [one.name for one in bag.clubs].index("7 iron, bent") == [
        one.name for one in a_bag().clubs
    ].index("7 iron")
    with pytest.raises(NotFoundError):
        with_club(a_bag(), an_iron(7), "3 iron")
    with pytest.raises(NotFoundError):
        without_club(a_bag(), "3 iron")
    with pytest.raises(InputError, match="two clubs are called"):
        with_club(a_bag(), an_iron(7))


def test_the_shop_s_scale_is_that_of_its_calibration_club() -> None:
    assert Terms().scale == USUAL_SCALE
    club = CalibrationClub(mass=0.310, balance=33.25 * INCH, reads=30.0)
    scale = Terms(calibration=club).scale
    assert scale.calibrated
    assert scale.index(0.310 * (33.25 - 14.0) * INCH) == pytest.approx(30.0)


def test_a_built_club_is_taken_over_with_the_doubts_of_its_final_check(studio: Studio) -> None:
    golfer = a_golfer(studio)
    fitting = built(studio, golfer)
    (one,) = offered(studio, golfer, Bag())
    assert (one.key, one.name, one.source) == (fitting, "Wayfarer 10.5", FROM_CHECK)
    club = one.club
    assert club is not None
    assert club.kind is BagKind.WOOD
    assert club.length == pytest.approx(45.25 * INCH)
    assert club.method is LengthMethod.PLANE
    assert club.swingweight == 33.0
    assert club.timed is not None
    assert club.timed.tip_mass == pytest.approx(205.0 * GRAM)
    assert club.doubts[Known.MASS] == pytest.approx(0.6 * GRAM)
    assert club.doubts[Known.FREQUENCY] == pytest.approx(1.5 * CYCLE_PER_MINUTE)
    assert Known.LOFT not in club.doubts
    bag = taken_over(Bag(), club)
    assert bag.clubs == (club,)
    assert offered(studio, golfer, bag) == ()


def test_a_pendulum_of_the_final_check_gives_the_club_moi(studio: Studio) -> None:
    golfer = a_golfer(studio)
    swung = MEASURED + toml_text(
        {
            "pendulum.pivot_inch": 2.0,
            "pendulum.period_s": 2.030184,
            "pendulum.period_u95_s": 0.005,
        }
    )
    built(studio, golfer, measured=swung)
    (one,) = offered(studio, golfer, Bag())
    assert one.club is not None
    assert one.club.inertia is not None
    assert one.club.inertia / KILOGRAM_SQUARE_CENTIMETRE == pytest.approx(2851.0, abs=12.0)
    assert one.club.doubts[Known.INERTIA] / KILOGRAM_SQUARE_CENTIMETRE > 12.0


def test_a_club_that_was_not_accepted_or_is_another_golfer_s_is_not_offered(
    studio: Studio,
) -> None:
    golfer, other = a_golfer(studio), a_golfer(studio)
    built(studio, golfer, outcome=Outcome.REWORK)
    built(studio, other)
    assert offered(studio, golfer, Bag()) == ()


def test_what_cannot_be_taken_over_is_shown_with_its_reason(studio: Studio) -> None:
    golfer = a_golfer(studio)
    built(studio, golfer, measured=toml_text({"mass_g.value": 3160.0, "mass_g.u95": 1.0}))
    (one,) = offered(studio, golfer, Bag())
    assert one.club is None
    assert one.why_not == "mass: a mass of 3160 g cannot be"


def test_taking_over_again_replaces_the_figures_and_keeps_a_spare_a_spare(
    studio: Studio,
) -> None:
    golfer = a_golfer(studio)
    built(studio, golfer)
    (one,) = offered(studio, golfer, Bag())
    assert one.club is not None
    spare = replace(one.club, spare=True, mass=0.31)
    bag = with_clubs(Bag(), (spare,), "typing")
    (again,) = offered(studio, golfer, bag)
    assert again.club is not None
    assert taken_over(bag, again.club).clubs == (replace(one.club, spare=True),)


def test_the_own_club_comes_from_the_rack_with_its_newest_card(studio: Studio) -> None:
    club = a_club(studio, a_head(studio), "Reedmace", 60.0, 45.0)
    golfer = a_golfer(studio)
    known = studio.store.golfer(golfer)
    studio.store.change_golfer(replace(known.value, own=club.id), version=known.version)
    (one,) = offered(studio, golfer, Bag())
    assert (one.key, one.name, one.source) == (OWN, "Harrow 460, own", FROM_RACK)
    assert one.club is not None
    assert one.club.mass is None
    assert one.club.length == pytest.approx(45.0 * INCH)
    figures = PartFigures(
        mass=0.312, balance=0.85, length=45.1 * INCH, frequency=4.2, clamp=0.127, tip_mass=0.205
    )
    studio.store.keep_card(
        MeasuredCard(item=club.id, day=date(2026, 11, 25), by="B.", figures=figures)
    )
    (one,) = offered(studio, golfer, Bag())
    assert one.club is not None
    assert one.club.mass == 0.312
    assert one.club.length == pytest.approx(45.1 * INCH)
    assert one.club.timed is not None
