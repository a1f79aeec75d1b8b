"""A club of the rack as the plan offers it: what it is, what it tries, or why it cannot be hit."""

from dataclasses import dataclass

from loftwright.bay.levers import Lever, Tried
from loftwright.bay.now import FittingNow
from loftwright.bay.outside import is_outside
from loftwright.domain.club_kind import kind_of_card, kind_words
from loftwright.report.likeness_words import NOT_MEASURED
from loftwright.report.numbers import NONE, listed
from loftwright.report.screen_numbers import Show
from loftwright.services.rack import Candidate


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateRow:
    """One club of the rack before this golfer.

    Attributes
    ----------
    name : str
        What it is called in this fitting; empty before it joins.
    tries : str
        What it tries against the own club, big levers first.
    out : str
        Why it is out of the comparison; empty while it is in.
    record : tuple of str
        What the shop record says of its shaft; empty before anything was learned.
    """

    id: str
    name: str
    head: str
    shaft: str
    bench: str
    length: str
    setting: str
    price: str
    tries: str
    why_not: str
    out: str
    ticked: bool
    record: tuple[str, ...] = ()


def candidate_row(
    candidate: Candidate,
    now: FittingNow,
    show: Show,
    currency: str,
    *,
    ticked: bool,
    compared: bool,
    record: tuple[str, ...] = (),
) -> CandidateRow:
    """Return one club's row.

    Parameters
    ----------
    candidate : Candidate
    now : FittingNow
    show : Show
    currency : str
    ticked : bool
    compared : bool
        Whether there is an own club that it can try something against.
    record : tuple of str
        What the shop record says of its shaft.
    """
    club = next((one for one in now.clubs if one.card.assembly == candidate.assembly.id), None)
    card = candidate.card
    return CandidateRow(
        id=candidate.assembly.id,
        name=club.name if club is not None else "",
        head=f"{card.head}, {show.angle(card.loft)}",
        shaft=card.shaft,
        bench="measured" if card.measured else NOT_MEASURED,
        length=show.length(card.length),
        setting=card.setting,
        price=NONE if card.price is None else show.money(card.price, currency),
        tries=_tries(candidate, show) if compared or is_outside(card) else NONE,
        why_not=candidate.why_not,
        out=club.out if club is not None else "",
        ticked=ticked,
        record=record,
    )


def _tries(candidate: Candidate, show: Show) -> str:
    """Return what a club tries; one that is no driver tries nothing against the own one."""
    if is_outside(candidate.card):
        return f"{kind_words(kind_of_card(candidate.card))}: its balls are listed as read"
    return tries_words(candidate.tries, show)


def tries_words(tries: Tried, show: Show) -> str:
    """Return what a club tries against the own one, in words, big levers first."""
    words = {
        Lever.LENGTH: _more(tries.length, show.length(abs(tries.length)), "longer", "shorter"),
        Lever.LOFT: _more(tries.loft, show.angle(abs(tries.loft)), "more loft", "less loft"),
        Lever.HEAD: "another head",
        Lever.WEIGHT: _more(tries.weight, show.mass(abs(tries.weight)), "heavier", "lighter"),
        Lever.SHAFT: "another shaft",
    }
    return listed([words[lever] for lever in tries.levers]) or "nothing new"


def _more(value: float, size: str, above: str, below: str) -> str:
    return f"{size} {above if value > 0.0 else below}"
