"""Which one: whole clubs in groups that are too close to call, feel before price inside them."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from loftwright.bay.now import ClubNow, FittingNow
from loftwright.bay.outside import is_outside
from loftwright.bay.setups import SetUp, set_ups
from loftwright.domain.club_kind import Told, kind_of_card, may_tell
from loftwright.domain.names import OWN
from loftwright.domain.rack import Piece, Rack
from loftwright.evidence.advice import PROBABLY
from loftwright.evidence.decide import FEWEST_BALLS
from loftwright.evidence.result import ClubResult, Decision, Estimate, RankedOn
from loftwright.physics.sleeve import Convention
from loftwright.services.choice_told import to_confirm, with_told
from loftwright.services.not_hit import new_shaft_label
from loftwright.services.unhit import Beside
from loftwright.services.ways_on import Choice, ChoiceRow, Group, Way

__all__ = ["Choice", "ChoiceRow", "Group", "Way", "choose", "figure_of"]

_NO_FEEL: Final = -1.0
_NO_PRICE: Final = 10**12


def choose(
    now: FittingNow,
    decision: Decision | None,
    rack: Rack,
    convention: Convention,
    beside: Beside | None = None,
) -> Choice:
    """Return every way a golfer may go on.

    Parameters
    ----------
    now : FittingNow
    decision : Decision, optional
        None while no ball can be compared.
    rack : Rack
        For what could be made from the own club.
    convention : Convention
    beside : Beside, optional
        What is told of clubs that were not hit; without it they are named, and nothing is told.

    Returns
    -------
    Choice
        Groups by value; inside a group by feel, then by price, the own club last.
    """
    found = set_ups(now, convention)
    clubs = {club.name: club for club in now.clubs}
    results = {one.club: one for one in decision.clubs} if decision else {}
    ranked = [
        _hit(results[label], found[label], clubs)
        for label in (one.club for one in (decision.clubs if decision else ()))
        if label in found and figure_of(decision, results[label]) is not None
    ]
    runs = {} if beside is None else beside.runs
    ranked = [replace(row, run=runs.get(row.label)) for row in ranked]
    groups = [Group(rows=rows, ranked=True) for rows in _grouped(ranked, decision)]
    few = [
        _hit(results[label], found[label], clubs)
        for label in results
        if label in found and figure_of(decision, results[label]) is None
    ]
    unhit = [*_few(few), *_from_own(now, found, rack)]
    if beside is not None:
        unhit = with_told(unhit, beside)
    if unhit:
        groups.append(Group(rows=tuple(unhit), ranked=False))
    others = tuple(
        _outside(club, found) for club in now.clubs if not club.out and is_outside(club.card)
    )
    if others:
        groups.append(Group(rows=others, ranked=False))
    out = tuple(_out(club, found) for club in now.clubs if club.out)
    if out:
        groups.append(Group(rows=out, ranked=False))
    return Choice(
        groups=tuple(groups),
        to_confirm=to_confirm(unhit, beside),
        p_keep=None if beside is None else beside.p_keep,
    )


def figure_of(decision: Decision | None, result: ClubResult) -> Estimate | None:
    """Return what a club is ranked on; None where it may not be ranked."""
    if decision is None:
        return None
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return result.device_carry
    return result.value


def _hit(result: ClubResult, set_up: SetUp, clubs: dict[str, ClubNow]) -> ChoiceRow:
    club = clubs[set_up.club]
    return ChoiceRow(
        label=set_up.label,
        club=club.name,
        way=Way.HIT,
        set_up=set_up,
        result=result,
        feel=club.feel,
        word=club.word,
        price=club.card.price,
    )


def _grouped(rows: Sequence[ChoiceRow], decision: Decision | None) -> list[tuple[ChoiceRow, ...]]:
    """Part rows, best first, where a group's leader is probably better than the next."""
    if decision is None:
        return []
    better = {(pair.a, pair.b): pair.p_a_better for pair in decision.pairs}
    groups: list[list[ChoiceRow]] = []
    for row in rows:
        lead = groups[-1][0].label if groups else None
        p = None if lead is None else better.get((lead, row.label))
        if p is not None and p < PROBABLY:
            groups[-1].append(row)
        else:
            groups.append([row])
    return [tuple(sorted(group, key=_by_feel_then_price)) for group in groups]


def _by_feel_then_price(row: ChoiceRow) -> tuple[bool, float, int]:
    feel = _NO_FEEL if row.feel is None else row.feel
    return row.club == OWN, -feel, _NO_PRICE if row.price is None else row.price


def _few(rows: Sequence[ChoiceRow]) -> list[ChoiceRow]:
    return [
        ChoiceRow(
            label=row.label,
            club=row.club,
            way=Way.TOO_FEW,
            set_up=row.set_up,
            result=row.result,
            feel=row.feel,
            word=row.word,
            price=row.price,
            reason=_why_not_ranked(row.result),
        )
        for row in rows
    ]


def _why_not_ranked(result: ClubResult | None) -> str:
    if result is not None and result.balls >= FEWEST_BALLS:
        return "not hit on a day with the others: hit one club of each day again"
    return "too few balls to be compared"


def _from_own(now: FittingNow, found: dict[str, SetUp], rack: Rack) -> list[ChoiceRow]:
    """Return what the own club could become without a new club; none of it was hit."""
    own = now.club(OWN)
    if own is None or is_outside(own.card):
        return []
    hit = {one.setting for one in now.balls if one.club == OWN}
    rows = []
    if not hit:
        rows.append(
            ChoiceRow(
                label=OWN,
                club=OWN,
                way=Way.OWN_NOT_HIT,
                set_up=found.get(OWN),
                price=0,
                reason="not hit: nothing is said to beat it",
            )
        )
    return [*rows, _turned_sleeve(own, hit), *_new_shafts(now, rack, own)]


def _turned_sleeve(own: ClubNow, hit: set[str]) -> ChoiceRow:
    """Return the cheapest way, which always stands in the list, with why where there is none."""
    left = [one.name for one in own.card.settings if one.name not in hit | {own.card.setting}]
    if left:
        why = f"own club, no new part; sleeve {' or '.join(left)}"
    else:
        why = "every setting was hit" if own.card.settings else "the own head has no sleeve"
    return ChoiceRow(
        label="Only turn the sleeve",
        club=OWN,
        way=Way.TURN_SLEEVE if left else Way.NO_SLEEVE,
        set_up=None,
        price=0 if left else None,
        reason=why,
    )


def _new_shafts(now: FittingNow, rack: Rack, own: ClubNow) -> list[ChoiceRow]:
    head = rack.pieces.get(own.card.head_piece)
    model = rack.heads.get(head.model) if head else None
    if model is None:
        return []
    rows = []
    for club in now.clubs:
        piece = rack.pieces.get(club.card.shaft_piece)
        if club.name == OWN or club.out or is_outside(club.card) or piece is None:
            continue
        sleeve = rack.sleeves.get(piece.sleeve or "")
        fits = (sleeve.system if sleeve else "") == model.system
        rows.append(
            ChoiceRow(
                label=new_shaft_label(club.name),
                club=OWN,
                way=Way.NEW_SHAFT,
                set_up=None,
                price=_price_of(rack, piece),
                reason=club.card.shaft + ("" if fits else "; needs a sleeve for this head"),
            )
        )
    return rows


def _price_of(rack: Rack, shaft: Piece) -> int | None:
    model = rack.shafts.get(shaft.model)
    return None if model is None else model.price


def _outside(club: ClubNow, found: dict[str, SetUp]) -> ChoiceRow:
    return ChoiceRow(
        label=club.name,
        club=club.name,
        way=Way.OUTSIDE,
        set_up=found.get(club.name),
        feel=club.feel,
        word=club.word,
        price=club.card.price,
        reason=may_tell(kind_of_card(club.card), Told.VALUE).why,
    )


def _out(club: ClubNow, found: dict[str, SetUp]) -> ChoiceRow:
    return ChoiceRow(
        label=club.name,
        club=club.name,
        way=Way.OUT,
        set_up=found.get(club.name),
        feel=club.feel,
        word=club.word,
        price=club.card.price,
        reason=club.out,
    )
