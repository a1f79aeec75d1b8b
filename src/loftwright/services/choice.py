"""Which one: whole clubs in groups that are too close to call, feel before price inside them."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loftwright.bay.now import ClubNow, FittingNow
from loftwright.bay.setups import SetUp, set_ups
from loftwright.domain.names import OWN
from loftwright.domain.rack import Rack
from loftwright.evidence.advice import PROBABLY
from loftwright.evidence.decide import FEWEST_BALLS
from loftwright.evidence.result import ClubResult, Decision, Estimate, RankedOn
from loftwright.physics.sleeve import Convention

_NO_FEEL: Final = -1.0
_NO_PRICE: Final = 10**12


class Way(StrEnum):
    """How a golfer comes to a club."""

    HIT = "hit"
    """A club of this fitting, hit often enough to be ranked."""
    TOO_FEW = "too_few"
    OWN_NOT_HIT = "own_not_hit"
    TURN_SLEEVE = "turn_sleeve"
    """The own club with its sleeve turned; not hit."""
    NO_SLEEVE = "no_sleeve"
    """The own club, the sleeve of which cannot be turned to what was not hit."""
    NEW_SHAFT = "new_shaft"
    """A shaft of this fitting in the own head; not hit."""
    OUT = "out"
    """Ended by the golfer or the fitter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceRow:
    """One way to go on.

    Attributes
    ----------
    label : str
        Name of the set-up, or of what is made from the own club.
    setting : str
        How the sleeve sits.
    result : ClubResult, optional
        What was seen; none for what was not hit.
    feel : float, optional
    price : int, optional
        In the smallest unit of money; None where nobody set one.
    reason : str
        Why it stands where it stands, where that is not its value.
    """

    label: str
    club: str
    way: Way
    set_up: SetUp | None
    result: ClubResult | None = None
    feel: float | None = None
    word: str = ""
    price: int | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Clubs that are too close to call among themselves, or a single one."""

    rows: tuple[ChoiceRow, ...]
    ranked: bool

    @property
    def close(self) -> bool:
        """Whether the rows are told apart by feel and price alone."""
        return self.ranked and len(self.rows) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Every way to go on, the best supported first."""

    groups: tuple[Group, ...]


def choose(
    now: FittingNow, decision: Decision | None, rack: Rack, convention: Convention
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
    groups = [Group(rows=rows, ranked=True) for rows in _grouped(ranked, decision)]
    few = [
        _hit(results[label], found[label], clubs)
        for label in results
        if label in found and figure_of(decision, results[label]) is None
    ]
    unhit = [*_few(few), *_from_own(now, found, rack)]
    if unhit:
        groups.append(Group(rows=tuple(unhit), ranked=False))
    out = tuple(_out(club, found) for club in now.clubs if club.out)
    if out:
        groups.append(Group(rows=out, ranked=False))
    return Choice(groups=tuple(groups))


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
    if own is None:
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
        if club.name == OWN or club.out or piece is None:
            continue
        sleeve = rack.sleeves.get(piece.sleeve or "")
        fits = (sleeve.system if sleeve else "") == model.system
        rows.append(
            ChoiceRow(
                label=f"{club.name}'s shaft in the own head",
                club=OWN,
                way=Way.NEW_SHAFT,
                set_up=None,
                reason=club.card.shaft + ("" if fits else "; needs a sleeve for this head"),
            )
        )
    return rows


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
