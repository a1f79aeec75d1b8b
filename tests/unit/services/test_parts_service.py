"""Parts of an agreed order: what they are held to, and which decisions are refused."""

from dataclasses import replace

import pytest

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Hand
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.order import Kept
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.domain.rack import Piece
from loftwright.domain.verdict import Fit
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.job import job_act
from loftwright.services.measured_cards import keep_measured
from loftwright.services.measuring import keep_profile
from loftwright.services.parts import check_in, parts_standing, settle
from loftwright.services.rack_changing import change_together, known_item
from loftwright.services.studio import Studio
from loftwright.workshop.held import Figure, Silent, Source
from loftwright.workshop.parts import State
from ordered import HEAD, PROMISE, a_head_came, an_order
from shafts import a_profile
from studios import studio_in_memory

BOTH = a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def test_nothing_is_checked_in_before_the_order_is_agreed(studio: Studio) -> None:
    made = an_order(studio, agreed=False)
    assert parts_standing(studio, made.fitting).spec is None
    with pytest.raises(InputError, match="no order is agreed"):
        check_in(studio, made.fitting, BOTH)


def test_an_order_that_is_off_takes_no_parts(studio: Studio) -> None:
    made = an_order(studio)
    job_act(studio, made.fitting, [Withdrawn(reason="moved away")])
    now = parts_standing(studio, made.fitting)
    assert now.withdrawn == Withdrawn(reason="moved away")
    with pytest.raises(InputError, match="no order is agreed"):
        check_in(studio, made.fitting, BOTH)


def test_a_training_case_has_no_parts(studio: Studio) -> None:
    with pytest.raises(NotFoundError):
        parts_standing(studio, "training-1")


def test_a_part_that_stays_is_not_checked_in(studio: Studio) -> None:
    made = an_order(studio, kept=Kept.HEAD)
    with pytest.raises(InputError, match="needs no head") as refused:
        check_in(studio, made.fitting, BOTH)
    assert "shaft, grip, sleeve" in refused.value.mend


def test_the_card_of_the_tested_head_is_what_counts(studio: Studio) -> None:
    made = an_order(studio, card=replace(HEAD, loft=10.1 * DEGREE))
    check_in(studio, made.fitting, a_head_came())
    loft = parts_standing(studio, made.fitting).parts[Part.HEAD].line(Figure.LOFT)
    assert loft is not None
    assert loft.target is not None
    assert loft.target.source is Source.CARD
    assert loft.apart == pytest.approx(0.4 * DEGREE)


def test_without_a_card_it_is_the_head_as_it_joined_the_fitting(studio: Studio) -> None:
    made = an_order(studio, card=None)
    check_in(studio, made.fitting, BOTH)
    head = parts_standing(studio, made.fitting).parts[Part.HEAD]
    loft, mass = head.line(Figure.LOFT), head.line(Figure.MASS)
    assert loft is not None
    assert loft.target is not None
    assert loft.target.source is Source.JOINED
    assert loft.fit is Fit.OUT
    assert mass is not None
    assert mass.silent is Silent.NOTHING_KNOWN


def test_the_weight_on_the_rack_and_the_club_s_card_stand_in_for_a_card(studio: Studio) -> None:
    made = an_order(studio, card=None)
    known = known_item(studio, made.spec.head_piece)
    assert isinstance(known.item, Piece)
    change_together(studio, ((replace(known.item, mass=201.0 * GRAM), known.version),))
    keep_measured(studio, made.club.id, PartFigures(loft=10.2 * DEGREE))
    check_in(studio, made.fitting, a_head_came())
    head = parts_standing(studio, made.fitting).parts[Part.HEAD]
    sources = {one.figure: one.target.source for one in head.held if one.target is not None}
    assert sources[Figure.MASS] is Source.RACK
    assert sources[Figure.LOFT] is Source.CLUB_CARD
    assert sources[Figure.LIE] is Source.JOINED


def test_a_shaft_is_held_to_the_bench_at_the_length_it_was_weighed(studio: Studio) -> None:
    made = an_order(studio)
    profile = a_profile(piece=made.spec.shaft_piece, grams=60.0)
    kept = keep_profile(studio, profile)
    length = float(kept.station[-1])
    came = PartCame(
        part=Part.SHAFT,
        figures=PartFigures(mass=64.0 * GRAM, length=length, balance=0.5 * length),
    )
    check_in(studio, made.fitting, came)
    mass = parts_standing(studio, made.fitting).parts[Part.SHAFT].line(Figure.MASS)
    assert mass is not None
    assert mass.target is not None
    assert (mass.target.source, mass.fit) == (Source.BENCH, Fit.OUT)


def test_a_light_strong_head_is_offered_weight_and_a_turn(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    mends = parts_standing(studio, made.fitting).mends
    assert mends is not None
    assert mends.weight is not None
    assert mends.weight.add == pytest.approx(3.0 * GRAM)
    assert [one.setting for one in mends.turns] == ["middle", "one up"]
    settle(
        studio,
        made.fitting,
        [_weight(3.0 * GRAM), _turn("one up")],
    )
    now = parts_standing(studio, made.fitting)
    assert now.parts[Part.HEAD].state is State.SETTLED
    assert not now.ready


def test_everything_here_and_settled_is_ready(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, a_head_came())
    figures = {
        Part.SHAFT: PartFigures(mass=61.0 * GRAM, length=46.0 * INCH, balance=23.5 * INCH),
        Part.GRIP: PartFigures(mass=50.0 * GRAM, length=10.5 * INCH, balance=4.2 * INCH),
        Part.SLEEVE: PartFigures(mass=6.0 * GRAM),
    }
    for part, told in figures.items():
        assert not parts_standing(studio, made.fitting).ready
        check_in(studio, made.fitting, PartCame(part=part, figures=told))
    assert parts_standing(studio, made.fitting).ready


@pytest.mark.parametrize(
    ("act", "words"),
    [
        (PartSettled(part=Part.SHAFT, settled=Settled.KEEP), "no shaft is here"),
        (
            PartSettled(
                part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=0.05, matter=Matter.MASS
            ),
            "50.0 g does not bring",
        ),
        (
            PartSettled(
                part=Part.HEAD,
                settled=Settled.TURN_SLEEVE,
                setting="far up",
                matter=Matter.ANGLES,
            ),
            "no setting 'far up'",
        ),
    ],
)
def test_a_mend_that_does_not_fit_is_refused(studio: Studio, act: PartSettled, words: str) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    with pytest.raises(InputError, match=words):
        settle(studio, made.fitting, [act])


def test_nothing_is_added_to_a_heavy_head(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, a_head_came(mass=203.0 * GRAM))
    with pytest.raises(InputError, match="not lighter"):
        settle(studio, made.fitting, [_weight(3.0 * GRAM)])


def test_choosing_nothing_is_refused(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    with pytest.raises(InputError, match="nothing was chosen"):
        settle(studio, made.fitting, [])


def test_a_head_for_the_other_hand_only_goes_back(studio: Studio) -> None:
    made = an_order(studio, hand=Hand.LEFT)
    check_in(studio, made.fitting, replace(a_head_came(), other_hand=True))
    now = parts_standing(studio, made.fitting)
    assert now.parts[Part.HEAD].state is State.WRONG
    assert now.mends is None
    keep = PartSettled(part=Part.HEAD, settled=Settled.KEEP)
    with pytest.raises(InputError, match="not what was agreed"):
        settle(studio, made.fitting, [keep])
    settle(studio, made.fitting, [PartSettled(part=Part.HEAD, settled=Settled.SEND_BACK)])
    assert parts_standing(studio, made.fitting).parts[Part.HEAD].state is State.BACK


def test_angles_that_were_not_read_are_asked_for_before_a_turn_is_told(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, a_head_came(loft=9.5 * DEGREE, lie=None))
    mends = parts_standing(studio, made.fitting).mends
    assert mends is not None
    assert mends.turns == ()


def test_a_page_that_was_drawn_before_something_else_is_refused(studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH, seen=2)
    with pytest.raises(ConflictError):
        settle(studio, made.fitting, [_turn("one up")], seen=2)


def test_without_a_promise_no_ball_is_told(studio: Studio) -> None:
    assert parts_standing(studio, an_order(studio, promise=None).fitting).delivery is None
    assert parts_standing(studio, an_order(studio, promise=PROMISE).fitting).delivery is not None


def _weight(mass: float) -> PartSettled:
    return PartSettled(part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=mass, matter=Matter.MASS)


def _turn(setting: str) -> PartSettled:
    return PartSettled(
        part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting=setting, matter=Matter.ANGLES
    )
