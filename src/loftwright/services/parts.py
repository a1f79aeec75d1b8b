"""Parts of an agreed order: checked in, held against the tested pieces, mended or sent back."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from loftwright.domain.job_acts import JobEntry
from loftwright.domain.measured_card import MeasuredCard
from loftwright.domain.order import ClubSpec
from loftwright.domain.order_acts import Quoted, Withdrawn
from loftwright.domain.parts_acts import Part, PartCame, PartSettled, Settled
from loftwright.domain.terms import Terms
from loftwright.errors import ConvergenceError, InputError, NotFoundError
from loftwright.physics.impact import Delivery
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.services.job import job_act
from loftwright.services.measuring import measured
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.services.tested_parts import tested_parts
from loftwright.services.training_plays import is_training
from loftwright.workshop.held import ANGLES, MEASURED, USUAL_DOUBTS, Figure, HitPiece
from loftwright.workshop.left_over import delivery_of
from loftwright.workshop.mends import HeadWeight, Turn, head_weight, turns, turns_known
from loftwright.workshop.parts import READY, PartNow, State, expected, parts_now
from loftwright.workshop.stages import agreed_quote
from loftwright.workshop.standing import newest, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadMends:
    """What can be done about a head that came.

    Attributes
    ----------
    weight : HeadWeight or None
        None where its weight cannot be held against the tested one's.
    turns : tuple of Turn
        The ordered setting first; empty where an angle was not read.
    turnable : bool
        Whether anything is known of what a turn of this sleeve does.
    """

    weight: HeadWeight | None
    turns: tuple[Turn, ...]
    turnable: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsNow:
    """The parts of a fitting's order as they stand.

    Attributes
    ----------
    record : tuple of JobEntry
    spec : ClubSpec or None
        Of the order that was agreed to.
    withdrawn : Withdrawn or None
        Where the order is off.
    expected : tuple of Part
    parts : dict of Part to PartNow
    mends : HeadMends or None
        Once the right head came.
    delivery : Delivery or None
        The golfer's with the tested club; None where nothing was promised of it.
    convention : Convention
    terms : Terms
    tested : dict of Part to HitPiece
        What is known of the pieces that were hit.
    card : MeasuredCard or None
        Of the tested head.
    builder : str
        An outside builder; empty for the own workshop.
    """

    record: tuple[JobEntry, ...]
    spec: ClubSpec | None
    withdrawn: Withdrawn | None
    expected: tuple[Part, ...]
    parts: dict[Part, PartNow]
    mends: HeadMends | None
    delivery: Delivery | None
    convention: Convention
    terms: Terms
    tested: dict[Part, HitPiece]
    card: MeasuredCard | None
    builder: str

    @property
    def ready(self) -> bool:
        """Whether everything that was ordered is here and may be built with."""
        return self.spec is not None and all(
            self.parts[one].state in READY for one in self.expected
        )


def parts_standing(studio: Studio, fitting: str) -> PartsNow:
    """Return the parts of a fitting's order as they stand.

    Raises
    ------
    NotFoundError
        If there is no such fitting, or it is a training case.
    """
    if is_training(fitting):
        raise NotFoundError(
            "nothing is ordered from a training case", place=fitting, mend="Open a golfer's."
        )
    record = studio.store.job_record(fitting)
    terms = read_terms(studio).terms
    convention = read_settings(studio).settings.convention
    quoted = agreed_quote(record)
    spec = None if quoted is None else quoted.quote.spec
    cards = _newest_cards(studio)
    tested = {} if spec is None else _tested(studio, spec, cards)
    parts = parts_now(record, tested, terms.tolerances)
    head = parts[Part.HEAD]
    mends = None
    if spec is not None and head.came is not None and head.state is not State.WRONG:
        mends = _mends(spec, head, tested[Part.HEAD], convention, terms)
    return PartsNow(
        record=record,
        spec=spec,
        withdrawn=_withdrawn(record),
        expected=() if spec is None else expected(spec),
        parts=parts,
        mends=mends,
        delivery=None if spec is None else _delivery(spec),
        convention=convention,
        terms=terms,
        tested=tested,
        card=None if spec is None else cards.get(spec.head_piece),
        builder="" if quoted is None else quoted.quote.builder,
    )


def check_in(
    studio: Studio,
    fitting: str,
    came: PartCame,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down a part that came and return the job's record.

    Raises
    ------
    InputError
        If no order is agreed, or the order does not need such a part.
    ConflictError
        If the record went on since the page was drawn.
    """
    now = _agreed(studio, fitting)
    if came.part not in now.expected:
        names = ", ".join(now.expected)
        raise InputError(
            f"this order needs no {came.part}",
            place="part",
            mend=f"It needs {names}." if names else "Everything stays on the golfer's own club.",
        )
    return job_act(studio, fitting, [came], by=by, key=key, seen=seen)


def settle(
    studio: Studio,
    fitting: str,
    settled: Sequence[PartSettled],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down together what is done about a part, and return the job's record.

    Raises
    ------
    InputError
        If nothing was decided, the part has not come, or the mend does not fit it.
    ConflictError
        If the record went on since the page was drawn.
    """
    now = _agreed(studio, fitting)
    if not settled:
        raise InputError("nothing was chosen", place="settle", mend="Choose what is done.")
    for one in settled:
        _check(now, one)
    return job_act(studio, fitting, settled, by=by, key=key, seen=seen)


def _check(now: PartsNow, act: PartSettled) -> None:
    part = now.parts[act.part]
    if part.came is None or part.state is State.BACK:
        raise InputError(f"no {act.part} is here", place="settle", mend="Check it in first.")
    if part.state is State.WRONG and act.settled is not Settled.SEND_BACK:
        raise InputError(
            f"this {act.part} is not what was agreed",
            place="settle",
            mend="Send it back, or make a new quote with it and have it agreed.",
        )
    if act.settled is Settled.HEAD_WEIGHT:
        _check_weight(now, act)
    if act.settled is Settled.TURN_SLEEVE:
        _check_turn(now, act)


def _check_weight(now: PartsNow, act: PartSettled) -> None:
    weight = None if now.mends is None else now.mends.weight
    if act.part is not Part.HEAD or weight is None or weight.add <= 0.0:
        raise InputError(
            "this head is not lighter than the tested one",
            place="mass",
            mend="Nothing is added to it; take another mend.",
        )
    if not 0.0 < act.mass <= 2.0 * weight.add:
        raise InputError(
            f"{1000.0 * act.mass:.1f} g does not bring this head to the tested one",
            place="mass",
            mend=f"It is {1000.0 * weight.add:.1f} g light.",
        )


def _check_turn(now: PartsNow, act: PartSettled) -> None:
    names = [] if now.spec is None else [one.name for one in now.spec.settings]
    if act.part is not Part.HEAD or act.setting not in names:
        raise InputError(
            f"the sleeve has no setting {act.setting!r}",
            place="setting",
            mend="It has " + ", ".join(names) + "." if names else "The hosel is glued.",
        )


def _agreed(studio: Studio, fitting: str) -> PartsNow:
    now = parts_standing(studio, fitting)
    if now.spec is None:
        raise InputError(
            "no order is agreed, so that parts have nothing to be held to",
            place="part",
            mend="Have the order agreed first.",
        )
    return now


def _withdrawn(record: Sequence[JobEntry]) -> Withdrawn | None:
    last = [one for one in standing(record) if isinstance(one.act, Quoted | Withdrawn)]
    return newest(last[-1:], Withdrawn)


def _newest_cards(studio: Studio) -> dict[str, MeasuredCard]:
    return {item: cards[-1] for item, cards in studio.store.cards().items()}


def _mends(
    spec: ClubSpec, head: PartNow, tested: HitPiece, convention: Convention, terms: Terms
) -> HeadMends:
    mass = head.line(Figure.MASS)
    apart = None if mass is None else mass.apart
    read = {figure: head.line(figure) for figure in ANGLES}
    found: tuple[Turn, ...] = ()
    if all(one is not None and one.reading is not None for one in read.values()):
        own = USUAL_DOUBTS.angle
        carded = any(tested.known[figure].source in MEASURED for figure in ANGLES)
        found = turns(
            spec,
            _angles({one: line.reading or 0.0 for one, line in read.items() if line is not None}),
            _angles({figure: tested.known[figure].value for figure in ANGLES}),
            convention,
            terms.tolerances,
            hypot(own, own) if carded else own,
        )
    return HeadMends(
        weight=None if apart is None else head_weight(apart, spec.length),
        turns=found,
        turnable=turns_known(spec.settings),
    )


def _angles(of: dict[Figure, float]) -> HeadAngles:
    return HeadAngles(loft=of[Figure.LOFT], lie=of[Figure.LIE], face=of[Figure.FACE])


def _tested(
    studio: Studio, spec: ClubSpec, cards: dict[str, MeasuredCard]
) -> dict[Part, HitPiece]:
    return tested_parts(spec, studio.store.rack(), cards, measured(studio))


def _delivery(spec: ClubSpec) -> Delivery | None:
    if spec.promise is None:
        return None
    try:
        return delivery_of(spec.promise)
    except ConvergenceError:
        return None
