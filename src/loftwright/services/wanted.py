"""The club that any row of a choice stands for, whole, so that it can be quoted and built."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.bay.setups import SetUp, label_of, set_up_of, set_ups
from loftwright.constants import GRAM
from loftwright.domain.fitting import ClubCard
from loftwright.domain.golfer import Hand
from loftwright.domain.names import OWN
from loftwright.domain.order import ClubSpec, Kept, PriceKind, PriceLine, Promise, Told
from loftwright.domain.rack import Rack
from loftwright.errors import InputError
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.evidence.result import Against, ClubResult, Decision, RankedOn
from loftwright.physics.sleeve import Convention
from loftwright.report.not_hit_words import HALF, made_words
from loftwright.report.numbers import LIKELY_RANGE
from loftwright.report.order_why import why_lines
from loftwright.report.screen_numbers import Show
from loftwright.services.bay_now import BayNow
from loftwright.services.choosing import Chosen
from loftwright.services.not_hit import (
    LENGTHS,
    WEIGHTS,
    head_weight_label,
    length_label,
    new_head_label,
    new_shaft_label,
    weight_label,
)
from loftwright.services.settings import show_of
from loftwright.services.ways_on import ChoiceRow, Way

NOTHING_TO_ORDER: Final = "it is the golfer's own as it is: there is nothing to order"
NO_NAME: Final = "a setting without a name"
_OUT: Final = "it is out of this fitting; take that back in the bay first"
_WHICH_SETTING: Final = "choose below how the sleeve shall sit"
_NO_SUCH: Final = "its club is not in this fitting any more"
_NO_SLEEVE: Final = "its sleeve cannot be turned to what was not hit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A row of the choice as something to order.

    Attributes
    ----------
    label : str
    row : ChoiceRow
    spec : ClubSpec or None
        None where there is nothing to order, or nothing that can be.
    why_not : str
        Why there is none; empty where there is one.
    lines : tuple of PriceLine
        What it costs by the choice; a price is None where nobody set one.
    built : bool
        Whether somebody puts parts together, so that the usual lines of a quote go with it.
    balls : int
        Hit with just this club.
    """

    label: str
    row: ChoiceRow
    spec: ClubSpec | None = None
    why_not: str = ""
    lines: tuple[PriceLine, ...] = ()
    built: bool = True
    balls: int = 0

    @property
    def to_hit(self) -> int:
        """Balls that are missing before anybody orders it."""
        return 0 if self.spec is None else max(0, CONFIRMING_BALLS - self.balls)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A club as a row describes it, before what is told of it."""

    kept: Kept
    card: ClubCard
    setting: str
    lines: tuple[PriceLine, ...]
    built: bool = True


def wanted_clubs(bay: BayNow, chosen: Chosen, rack: Rack) -> tuple[Wanted, ...]:
    """Return every row of a fitting's choice as something to order, in the choice's order.

    Parameters
    ----------
    bay : BayNow
    chosen : Chosen
    rack : Rack
        For the price of a shaft alone, and whether its sleeve fits the own head.

    Returns
    -------
    tuple of Wanted
        A row that names several settings of the own sleeve comes once a setting.
    """
    made = dict(_everything(bay.now, bay.settings.convention, rack))
    found: list[Wanted] = []
    for group in chosen.choice.groups:
        for row in group.rows:
            found += _of_row(row, made, bay)
    return tuple(found)


def may_be_ordered(row: ChoiceRow) -> bool:
    """Return whether a row of the choice can be quoted, the setting of its sleeve once chosen."""
    return row.way not in {Way.OUT, Way.NO_SLEEVE, Way.OWN_NOT_HIT} and row.label != OWN


def balls_with(now: FittingNow, label: str) -> int:
    """Return how many balls that count were hit with just this club."""
    return sum(set_up_of(one, now) == label for one in now.balls)


def _of_row(row: ChoiceRow, made: dict[str, _Made], bay: BayNow) -> Iterator[Wanted]:
    if row.way is Way.OUT:
        yield Wanted(label=row.label, row=row, why_not=_OUT)
    elif row.way is Way.NO_SLEEVE:
        yield Wanted(label=row.label, row=row, why_not=row.reason or _NO_SLEEVE)
    elif row.way is Way.TURN_SLEEVE and row.label not in made:
        yield Wanted(label=row.label, row=row, why_not=_WHICH_SETTING)
        listed = {OWN} | {label_of(OWN, one.card, one.setting) for one in _hit_own(bay)}
        for label, one in made.items():
            if _turns_own(one) and label not in listed:
                yield _whole(replace(row, label=label, price=0), one, bay)
    elif row.label == OWN:
        yield Wanted(label=row.label, row=row, why_not=NOTHING_TO_ORDER)
    elif row.label not in made:
        yield Wanted(label=row.label, row=row, why_not=_NO_SUCH)
    else:
        yield _whole(row, made[row.label], bay)


def _whole(row: ChoiceRow, made: _Made, bay: BayNow) -> Wanted:
    decision, show = bay.evidence.decision, show_of(bay.settings)
    balls = balls_with(bay.now, row.label)
    try:
        spec = _spec(row, made, bay.golfer.hand, balls, decision, show)
    except InputError as error:
        return Wanted(label=row.label, row=row, why_not=error.message)
    lines = tuple(replace(one, what=made_words(one.what, show)) for one in made.lines)
    return Wanted(label=row.label, row=row, spec=spec, lines=lines, built=made.built, balls=balls)


def _spec(
    row: ChoiceRow,
    made: _Made,
    hand: Hand,
    balls: int,
    decision: Decision | None,
    show: Show,
) -> ClubSpec:
    card = made.card
    return ClubSpec(
        label=row.label,
        club=row.club,
        assembly=card.assembly,
        hand=hand,
        kept=made.kept,
        head=card.head,
        shaft=card.shaft,
        grip=card.grip,
        head_piece=card.head_piece,
        shaft_piece=card.shaft_piece,
        loft=card.loft,
        lie=card.lie,
        face=card.face,
        setting=made.setting,
        settings=card.settings,
        length=card.length,
        hit=balls > 0,
        promise=_promise(row.result, decision),
        why=why_lines(
            decision,
            row.result,
            balls=balls,
            rests=row.reason,
            feel=row.feel,
            word=row.word,
            show=show,
        ),
    )


def _promise(result: ClubResult | None, decision: Decision | None) -> Promise | None:
    """Return what a club is said to do at home; None where no ball is flown there."""
    if decision is None or decision.ranked_on is RankedOn.DEVICE_CARRY or result is None:
        return None
    level = result.level
    if level is None or not isfinite(level.total):
        return None
    value = None
    if result.value is not None and decision.against is Against.OWN:
        low, high = result.value.interval(LIKELY_RANGE)
        value = Told(mean=result.value.mean, low=low, high=high)
    fairways = level.fairways_in_14
    return Promise(
        home=decision.home.name,
        ball_speed=level.ball_speed,
        launch=level.launch,
        spin=level.spin,
        carry=level.carry,
        total=level.total,
        fairways_in_14=fairways if isfinite(fairways) else None,
        value=value,
    )


def _everything(
    now: FittingNow, convention: Convention, rack: Rack
) -> Iterator[tuple[str, _Made]]:
    """Yield every club that a row can stand for, by the label it would have."""
    own = now.club(OWN)
    for club in now.clubs:
        card = club.card
        for setting in dict.fromkeys((card.setting, *(one.name for one in card.settings))):
            yield label_of(club.name, card, setting), _as_it_sits(club.name, card, setting)
        if own is not None and club.name != OWN:
            yield new_shaft_label(club.name), _new_shaft(own.card, card, rack)
            yield new_head_label(club.name), _new_head(own.card, card, rack)
    for base in set_ups(now, convention).values():
        yield from _changed(base)


def _as_it_sits(club: str, card: ClubCard, setting: str) -> _Made:
    if club == OWN:
        lines = (_labour(f"Turn the sleeve to {setting or NO_NAME}", 0),)
        return _Made(kept=Kept.CLUB, card=card, setting=setting, lines=lines, built=False)
    lines = (_part(f"Club: {card.head}, {card.shaft}", card.price),)
    return _Made(kept=Kept.NOTHING, card=card, setting=setting, lines=lines)


def _new_shaft(own: ClubCard, other: ClubCard, rack: Rack) -> _Made:
    """Return the own head on another club's shaft; its sleeve is a line where it does not fit."""
    card = replace(own, shaft=other.shaft, shaft_piece=other.shaft_piece)
    head, shaft = rack.pieces.get(own.head_piece), rack.pieces.get(other.shaft_piece)
    model = None if shaft is None else rack.shafts.get(shaft.model)
    lines = [_part(f"Shaft: {other.shaft}", None if model is None else model.price)]
    system = rack.heads[head.model].system if head is not None else ""
    sleeve = rack.sleeves.get(shaft.sleeve or "") if shaft is not None else None
    if system and (sleeve is None or sleeve.system != system):
        lines.append(_part("Sleeve for the own head", None))
    return _Made(kept=Kept.HEAD, card=card, setting=own.setting, lines=tuple(lines))


def _new_head(own: ClubCard, other: ClubCard, rack: Rack) -> _Made:
    """Return another club's head on the own shaft, which gets a sleeve of the head's system."""
    card = replace(other, shaft=own.shaft, shaft_piece=own.shaft_piece)
    head, shaft = rack.pieces.get(other.head_piece), rack.pieces.get(own.shaft_piece)
    model = None if head is None else rack.heads.get(head.model)
    lines = [_part(f"Head: {other.head}", None if model is None else model.price)]
    sleeve = rack.sleeves.get(shaft.sleeve or "") if shaft is not None else None
    if model is not None and model.system and (sleeve is None or sleeve.system != model.system):
        lines.append(_part("Sleeve for the own shaft", None))
    return _Made(kept=Kept.SHAFT, card=card, setting=other.setting, lines=tuple(lines))


def _changed(base: SetUp) -> Iterator[tuple[str, _Made]]:
    sits = _as_it_sits(base.club, base.card, base.setting)
    own = base.club == OWN
    for word, by in LENGTHS.items():
        card = replace(base.card, length=base.card.length + by)
        lines = (_labour(f"Make the own club {HALF} {word}", None),) if own else sits.lines
        yield length_label(base.label, word), replace(sits, card=card, lines=lines, built=True)
    for word, by in WEIGHTS.items():
        head = f"{base.card.head}, {abs(by) / GRAM:g} g {word} than the tested one"
        card = replace(base.card, head=head)
        lines = (_labour(f"Make the own head {abs(by) / GRAM:g} g {word}", None),)
        made = replace(sits, card=card, lines=lines if own else sits.lines, built=True)
        yield head_weight_label(base.label, word), made
    for word, by in WEIGHTS.items():
        shaft = f"{base.card.shaft}, {abs(by) / GRAM:g} g {word} than the tested one"
        card = replace(base.card, shaft=shaft)
        kept = Kept.HEAD if own else sits.kept
        what = f"Shaft: {shaft}" if own else f"Club: {base.card.head}, {shaft}"
        lines = (_part(what, None if own else base.card.price),)
        made = replace(sits, kept=kept, card=card, lines=lines, built=True)
        yield weight_label(base.label, word), made


def _part(what: str, price: int | None) -> PriceLine:
    return PriceLine(what=what, kind=PriceKind.PART, price=price)


def _labour(what: str, price: int | None) -> PriceLine:
    return PriceLine(what=what, kind=PriceKind.LABOUR, price=price)


def _turns_own(made: _Made) -> bool:
    return made.kept is Kept.CLUB and not made.built


def _hit_own(bay: BayNow) -> Sequence[SetUp]:
    found = set_ups(bay.now, bay.settings.convention).values()
    return [one for one in found if one.club == OWN]
