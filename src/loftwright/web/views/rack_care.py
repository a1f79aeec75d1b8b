"""What a piece has been through, and where a recalled one has been, in words."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from loftwright.domain.inspection import Finding, Inspection, Wear
from loftwright.domain.rack import Rack, ShaftModel
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show
from loftwright.services.recalling import Recall
from loftwright.web.views.rack_lineage import model_words
from loftwright.web.views.rack_rows import Choice, head_words, shaft_words, state_words

FINDINGS = (
    Choice(value=Finding.SOUND.value, text="Sound"),
    Choice(value=Finding.WORN.value, text="Worn, may be hit"),
    Choice(value=Finding.CRACKED.value, text="Cracked: lock it"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One look at a piece."""

    day: str
    balls: str
    finding: str
    words: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CareView:
    """What a piece has been through.

    Attributes
    ----------
    due : str
        That it is to be looked at before it is hit again; empty while it is not.
    looks : tuple of LookRow
        The newest first.
    """

    words: str
    due: str
    looks: tuple[LookRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedRow:
    """A fitting in which a recalled piece was."""

    fitting: str
    name: str
    day: str
    clubs: str
    balls: str
    since: str
    closed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RecallView:
    """The page of a recall.

    Attributes
    ----------
    pieces, assemblies : tuple of Choice
        Id and words.
    owned : tuple of Choice
        Fitting-free golfers whose own club holds a piece: golfer's name and the club's id.
    at_large : int
        Pieces that may still be handed over.
    back : str
        Id of a sample whose page this one belongs to; empty for a model without one.
    """

    sentence: str
    lead: str
    pieces: tuple[Choice, ...]
    assemblies: tuple[Choice, ...]
    owned: tuple[str, ...]
    fittings: tuple[TouchedRow, ...]
    at_large: int
    back: str


def care_view(wear: Wear, looks: tuple[Inspection, ...], zone: tzinfo | None) -> CareView:
    """Return what a piece has been through.

    Parameters
    ----------
    wear : Wear
    looks : tuple of Inspection
        In the order in which they came.
    zone : tzinfo, optional
        The shop's.
    """
    balls = count(wear.balls, "ball")
    if wear.newest is None:
        words = f"{balls} hit, and nobody has looked at it yet."
    else:
        found = f"{wear.newest.finding} on {_day(wear.newest.at, zone)}"
        words = f"{balls} hit, {wear.since} since it was found {found}."
    left = wear.every - wear.since
    words += "" if wear.due else f" The next look is due in {count(left, 'ball')}."
    due = f"Look at it before it is hit again: it was to be seen every {wear.every} balls."
    return CareView(
        words=words,
        due=due if wear.due else "",
        looks=tuple(
            LookRow(
                day=_day(one.at, zone),
                balls=str(one.balls),
                finding=one.finding.value,
                words=one.words,
                by=one.by,
            )
            for one in reversed(looks)
        ),
    )


def recall_view(rack: Rack, found: Recall, show: Show) -> RecallView:
    """Return the page of a recall."""
    words = model_words(found.model)
    named = f"{words}, every sample" if found.whole else _piece_words(rack, found, show)
    hit = [one for one in found.fittings if one.balls]
    golfers = len({one.golfer for one in hit} | {one.golfer for one in found.owned})
    went = f"went to {count(golfers, 'golfer')}" if golfers else "went to nobody yet"
    risky = sum(one.since for one in found.fittings)
    lead = (
        f"{count(risky, 'fitting')} since it was last found sound; what it showed there may be "
        "doubted."
        if risky
        else "No ball was hit with it since it was last found sound."
    )
    return RecallView(
        sentence=f"{named}, {went}.",
        lead=lead,
        pieces=tuple(
            Choice(value=one.id, text=f"{one.label}: {state_words(one) or 'may be hit'}")
            for one in found.pieces
        ),
        assemblies=tuple(
            Choice(
                value=one.id,
                text=f"{head_words(rack, rack.pieces[one.head], show)} on "
                f"{shaft_words(rack, rack.pieces[one.shaft])}, {show.length(one.length)}",
            )
            for one in found.assemblies
        ),
        owned=tuple(one.name for one in found.owned),
        fittings=tuple(
            TouchedRow(
                fitting=one.fitting,
                name=one.name,
                day=_written(one.opened),
                clubs=listed(one.clubs),
                balls=str(one.balls),
                since="since" if one.since else "before" if one.balls else "not hit",
                closed=one.closed,
            )
            for one in found.fittings
        ),
        at_large=len(found.at_large),
        back=found.pieces[0].id if found.pieces else "",
    )


def _piece_words(rack: Rack, found: Recall, show: Show) -> str:
    (piece,) = found.pieces
    if isinstance(found.model, ShaftModel):
        return shaft_words(rack, piece)
    return head_words(rack, piece, show)


def _day(at: datetime, zone: tzinfo | None) -> str:
    return _written(at.astimezone(zone).date())


def _written(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
