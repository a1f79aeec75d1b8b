"""How each part of an order stands after what came and what was settled."""

from datetime import UTC, datetime

import pytest

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.order import Kept
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.domain.tolerances import Tolerances
from loftwright.workshop.held import Figure, HitPiece, Known, Source
from loftwright.workshop.parts import READY, PartNow, State, arrived, expected, parts_now
from ordered import HEAD, a_head_came, a_spec

AT = datetime(2026, 11, 25, 12, tzinfo=UTC)
TESTED = {
    Part.HEAD: HitPiece(
        known={
            figure: Known(value=getattr(HEAD, figure.value), source=Source.CARD)
            for figure in (Figure.MASS, Figure.LOFT, Figure.LIE, Figure.FACE)
        }
    )
}
LIGHT = a_head_came(mass=197.0 * GRAM)
BOTH = a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE)
WEIGHT = PartSettled(
    part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=3.0 * GRAM, matter=Matter.MASS
)
TURN = PartSettled(
    part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting="one up", matter=Matter.ANGLES
)
BACK = PartSettled(part=Part.HEAD, settled=Settled.SEND_BACK)


def head(*acts: JobAct) -> PartNow:
    record = [
        JobEntry(sequence=place, at=AT, by="", act=act, group=place)
        for place, act in enumerate(acts, start=1)
    ]
    return parts_now(record, TESTED, Tolerances())[Part.HEAD]


@pytest.mark.parametrize(
    ("acts", "state"),
    [
        ((), State.AWAITED),
        ((a_head_came(),), State.FITS),
        ((LIGHT,), State.OUT),
        ((LIGHT, WEIGHT), State.SETTLED),
        ((BOTH, WEIGHT), State.OUT),
        ((BOTH, WEIGHT, TURN), State.SETTLED),
        ((BOTH, BACK), State.BACK),
        ((BOTH, BACK, a_head_came()), State.FITS),
        ((LIGHT, WEIGHT, LIGHT), State.OUT),
        ((LIGHT, WEIGHT, JobUndone(act=2)), State.OUT),
        ((WEIGHT, LIGHT), State.OUT),
        ((a_head_came(loft=10.9 * DEGREE),), State.CLOSE),
        ((a_head_came(loft=None),), State.ASKS),
        ((a_head_came(mass=197.0 * GRAM, loft=None),), State.OUT),
    ],
)
def test_a_head_stands_as_its_acts_say(acts: tuple[JobAct, ...], state: State) -> None:
    assert head(*acts).state is state


def test_what_is_not_what_was_ordered_is_wrong_however_well_it_measures() -> None:
    other = PartCame(part=Part.HEAD, figures=HEAD, other_hand=True)
    assert head(other).state is State.WRONG
    named = PartCame(part=Part.HEAD, figures=HEAD, named="Lapwing 9")
    assert head(named).state is State.WRONG
    keep = PartSettled(part=Part.HEAD, settled=Settled.KEEP)
    assert head(named, keep).state is State.WRONG


def test_a_decision_on_the_whole_takes_the_place_of_those_on_its_matters() -> None:
    keep = PartSettled(part=Part.HEAD, settled=Settled.KEEP)
    assert dict(head(BOTH, WEIGHT, keep).settled) == {Matter.WHOLE: keep}


def test_weight_and_angles_of_a_head_stand_beside_each_other() -> None:
    acts: tuple[JobAct, ...] = (BOTH, WEIGHT, TURN)
    record = [
        JobEntry(sequence=place, at=AT, by="", act=act, group=place)
        for place, act in enumerate(acts, start=1)
    ]
    there = arrived(record)[Part.HEAD]
    assert dict(there.settled) == {Matter.MASS: WEIGHT, Matter.ANGLES: TURN}
    assert (there.came, there.sequence, there.back, there.wrong) == (BOTH, 1, False, False)


def test_a_grip_has_nothing_to_be_held_to() -> None:
    came = PartCame(
        part=Part.GRIP,
        figures=PartFigures(mass=50.0 * GRAM, length=10.5 * INCH, balance=4.2 * INCH),
    )
    record = [JobEntry(sequence=1, at=AT, by="", act=came, group=1)]
    grip = parts_now(record, TESTED, Tolerances())[Part.GRIP]
    assert grip.state is State.NOTED
    assert grip.state in READY


@pytest.mark.parametrize(
    ("kept", "sleeve", "parts"),
    [
        (Kept.NOTHING, True, (Part.HEAD, Part.SHAFT, Part.GRIP, Part.SLEEVE)),
        (Kept.NOTHING, False, (Part.HEAD, Part.SHAFT, Part.GRIP)),
        (Kept.HEAD, True, (Part.SHAFT, Part.GRIP, Part.SLEEVE)),
        (Kept.CLUB, True, ()),
    ],
)
def test_what_is_kept_does_not_have_to_come(
    kept: Kept, sleeve: bool, parts: tuple[Part, ...]
) -> None:
    changes = {} if sleeve else {"settings": (), "setting": ""}
    assert expected(a_spec(kept=kept, **changes)) == parts
