"""The bays as their page shows them: who has what, what is due, what reads otherwise."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.constants import REVOLUTION_PER_MINUTE
from loftwright.domain.piece_code import code_of
from loftwright.domain.place import AWAY, BENCH, WORKSHOP, PlaceMove
from loftwright.domain.rack import Assembly, Piece, Rack
from loftwright.report.bays_picture import BayRow, bays_picture
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_check import BALLS, CheckedBay, Due, checked_bays, found_offsets
from loftwright.services.bay_check_words import (
    QUANTITIES,
    bays_sentence,
    range_words,
    signed_words,
)
from loftwright.services.holding import local_now
from loftwright.services.moving import known_places
from loftwright.services.places import name_of
from loftwright.services.settings import Settings
from loftwright.services.studio import Studio
from loftwright.shop.bay_check import BayOffset
from loftwright.web.views.rack_rows import Choice

_UNITS = {"ball_speed": "", "launch": "°", "spin": "rpm", "axis": "°", "direction": "°"}


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRow:
    """A bay with its weekly check.

    Attributes
    ----------
    running : str
        Fitting of a check under way; empty without one.
    """

    bay: str
    words: str
    last: str
    running: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetRow:
    """What a bay reads otherwise in one quantity."""

    bay: str
    quantity: str
    mean: str
    narrow: str
    wide: str
    drift: str
    checks: str
    off: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRow:
    """A part and who has it."""

    id: str
    name: str
    code: str
    place: str
    since: str
    before: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacesView:
    """The live part of the page.

    Attributes
    ----------
    revision : int
        Number of the newest move.
    """

    rows: tuple[PlaceRow, ...]
    revision: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BaysView:
    """The page."""

    sentence: str
    lead: str
    picture: str
    checks: tuple[CheckRow, ...]
    offsets: tuple[OffsetRow, ...]
    places: PlacesView
    free: tuple[Choice, ...]
    to: tuple[Choice, ...]
    clubs: tuple[Choice, ...]
    balls: int = BALLS


def bays_view(studio: Studio, settings: Settings, show: Show) -> BaysView:
    """Return the page of the bays.

    Parameters
    ----------
    studio : Studio
    settings : Settings
    show : Show
    """
    bays, offsets = checked_bays(studio), found_offsets(studio)
    rack = studio.store.rack()
    sentence, lead = bays_sentence(offsets, bays, show)
    told = [one for one in offsets if one.linked]
    return BaysView(
        sentence=sentence,
        lead=lead,
        picture=_picture(told, show),
        checks=tuple(_check_row(one) for one in bays),
        offsets=tuple(_offset_row(one, show) for one in sorted(told, key=lambda one: not one.off)),
        places=places_view(studio, rack, settings),
        free=tuple(Choice(value=one.bay, text=one.bay) for one in bays if not one.running),
        to=tuple(Choice(value=one, text=one) for one in places_to(studio, rack)),
        clubs=tuple(
            Choice(value=one.id, text=_club_words(rack, one))
            for one in rack.assemblies.values()
            if one.owner is None
        ),
    )


def places_view(studio: Studio, rack: Rack, settings: Settings) -> PlacesView:
    """Return where every part is that a bay or a golfer has, or that was ever moved."""
    moves = studio.store.places()
    told = [
        one
        for one in rack.pieces.values()
        if one.place and (one.id in moves or one.place in settings.bays)
    ]
    order = {name: at for at, name in enumerate((*settings.bays, AWAY))}
    told.sort(key=lambda one: (order.get(one.place, len(order)), one.place, name_of(rack, one)))
    return PlacesView(
        rows=tuple(_place_row(studio, rack, one, moves.get(one.id)) for one in told),
        revision=max((one.number for one in moves.values()), default=0),
    )


def places_to(studio: Studio, rack: Rack) -> tuple[str, ...]:
    """Return where a part can go: the bays, workshop, bench, away, and every known place."""
    known = known_places(studio, rack)
    return tuple(dict.fromkeys((*known, WORKSHOP, BENCH, AWAY)))


def _place_row(studio: Studio, rack: Rack, piece: Piece, move: PlaceMove | None) -> PlaceRow:
    known = move if move is not None and move.place == piece.place else None
    place = piece.place
    if known is not None and known.golfer is not None:
        place = f"Away with {studio.store.identity(known.golfer).name}"
    since = ""
    if known is not None:
        now = local_now(studio)
        at = known.at.astimezone(now.tzinfo)
        day = "" if at.date() == now.date() else f"{at:%-d %B}, "
        since = f"{day}{at:%H:%M}" + (f", {known.by}" if known.by else "")
    return PlaceRow(
        id=piece.id,
        name=name_of(rack, piece),
        code=code_of(piece.id),
        place=place,
        since=since,
        before="" if known is None or known.was == known.place else known.was,
    )


def _check_row(one: CheckedBay) -> CheckRow:
    words = {
        Due.RUNNING: f"{one.hit} of {BALLS} balls hit",
        Due.NEVER: "Never checked",
        Due.OVERDUE: "Overdue",
        Due.DUE: "Due this week",
        Due.DONE: "Done this week",
    }[one.due]
    last = "–"
    if one.last is not None and one.days is not None:
        ago = {0: "today", 1: "yesterday"}.get(one.days, f"{one.days} days ago")
        last = f"{ago}, {one.device}" if one.device else ago
    return CheckRow(bay=one.bay, words=words, last=last, running=one.running)


def _offset_row(one: BayOffset, show: Show) -> OffsetRow:
    unit = show.unit("speed").name if one.quantity == "ball_speed" else _UNITS[one.quantity]
    drift = "–"
    if one.drift is not None:
        between = range_words(one.quantity, one.drift, wide=True, show=show)
        drift = f"{signed_words(one.quantity, one.drift.mean, show)} ({between})"
    return OffsetRow(
        bay=one.bay,
        quantity=f"{QUANTITIES[one.quantity]}, {unit}",
        mean=signed_words(one.quantity, one.offset.mean, show),
        narrow=range_words(one.quantity, one.offset, wide=False, show=show),
        wide=range_words(one.quantity, one.offset, wide=True, show=show),
        drift=drift,
        checks=f"{count(one.checks, 'check')}, {count(one.balls, 'ball')}",
        off=one.off,
    )


def _picture(offsets: Sequence[BayOffset], show: Show) -> str:
    """Draw the quantity in which bays differ most often: spin, where it was read."""
    spins = [one for one in offsets if one.quantity == "spin"]
    if len(spins) < 2:
        return ""
    rows = [
        BayRow(
            name=one.bay,
            mean=one.offset.mean / REVOLUTION_PER_MINUTE,
            narrow=(
                one.offset.low80 / REVOLUTION_PER_MINUTE,
                one.offset.high80 / REVOLUTION_PER_MINUTE,
            ),
            wide=(
                one.offset.low95 / REVOLUTION_PER_MINUTE,
                one.offset.high95 / REVOLUTION_PER_MINUTE,
            ),
            off=one.off,
        )
        for one in spins
    ]
    drawn = bays_picture(
        rows,
        title="Spin that each bay reads more or less than the others, rpm",
        zero="as the others",
        show=show,
    )
    return for_screen(drawn)


def _club_words(rack: Rack, club: Assembly) -> str:
    head, shaft = rack.pieces[club.head], rack.pieces[club.shaft]
    return f"{name_of(rack, head)} with {name_of(rack, shaft)}"
