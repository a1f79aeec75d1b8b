"""Targets of a build sheet beside what parts, cuts and departures come to, in the shop's units."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
)
from loftwright.constants import KILOGRAM_SQUARE_CENTIMETRE as INERTIA
from loftwright.domain.build_sheet import BuildSheet, SolvedBuild
from loftwright.domain.built import Checked
from loftwright.physics.build.club import Club
from loftwright.physics.build.solve import Answer
from loftwright.physics.build.trades import Instead
from loftwright.physics.build.uncertainty import NINETY_FIVE, ClubErrors
from loftwright.report.build_words import CHECKED_WORDS
from loftwright.report.numbers import NONE
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_words import (
    NOTHING,
    club_points,
    cut_length,
    swingweight_text,
    trade_text,
)

_COMPUTED: Final = (
    Checked.LENGTH,
    Checked.SWINGWEIGHT,
    Checked.MASS,
    Checked.BALANCE,
    Checked.INERTIA,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetShown:
    """One target beside what the parts come to.

    Attributes
    ----------
    target : str
        A dash where it was not asked for.
    predicted, doubt : str
        A dash where the sheet cannot say.
    tight : bool
        Whether the tolerance is tighter than the bench can tell.
    """

    what: str
    target: str
    predicted: str
    doubt: str
    tolerance: str
    tight: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ApartShown:
    """One target beside the club as built."""

    what: str
    target: str
    built: str
    apart: str
    out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeShown:
    """A club that can be built instead."""

    what: str
    head: str
    butt: str
    mass: str
    points: str
    inertia: str


def target_rows(
    solved: SolvedBuild, angles: Mapping[Checked, float], show: Show
) -> tuple[TargetShown, ...]:
    """Return every target of a sheet beside what the parts come to, and how sure that is.

    Parameters
    ----------
    solved : SolvedBuild
    angles : mapping of Checked to float
        Of the head with its sleeve as the sheet has it [rad].
    show : Show
    """
    club = solved.answer.club
    rows = []
    for checked in _COMPUTED:
        value = None if club is None else _of_club(checked, club, solved)
        wanted = _wanted(checked, solved)
        rows.append(_target(checked, wanted, value, solved, show))
    for checked, wanted in solved.sheet.also.items():
        predicted = show.angle(angles[checked]) if checked in angles else NONE
        doubt, tight = NONE, False
        if checked is Checked.FREQUENCY and solved.frequency is not None:
            predicted = _size(checked, solved.frequency.cut, show)
            half = NINETY_FIVE * solved.frequency.error
            doubt, tight = _size(checked, half, show), solved.sheet.tolerances.frequency < half
        if checked is Checked.GRIP and solved.sheet.build_up is not None:
            size = solved.sheet.build_up.size
            predicted = f"{cut_length(size.low, show)} to {cut_length(size.high, show)}"
        rows.append(
            TargetShown(
                what=_name(checked, solved.sheet, show),
                target=_shown(checked, show)(wanted),
                predicted=predicted,
                doubt=doubt,
                tolerance=_room(checked, solved.sheet, show),
                tight=tight,
            )
        )
    return tuple(rows)


def apart_rows(
    solved: SolvedBuild, club: Club, off: tuple[Checked, ...], show: Show
) -> tuple[ApartShown, ...]:
    """Return every target that was asked for beside the club as built."""
    rows = []
    for checked in _COMPUTED:
        wanted = _wanted(checked, solved)
        if wanted is None:
            continue
        built = _of_club(checked, club, solved)
        rows.append(
            ApartShown(
                what=_name(checked, solved.sheet, show),
                target=_shown(checked, show)(wanted),
                built=_shown(checked, show)(built),
                apart=_apart(checked, built - wanted, show),
                out=checked in off,
            )
        )
    return tuple(rows)


def cut_rows(answer: Answer, sheet: BuildSheet, show: Show) -> tuple[tuple[str, str], ...]:
    """Return what is cut and added, in the order of the work."""
    cuts = answer.cuts
    if cuts is None:
        return ()
    trim = NOTHING
    if cuts.tip_trim > 0.0:
        trim = f"{cut_length(cuts.tip_trim, show)} ({show.mass(cuts.tip_piece.mass, 1)})"
    return (
        ("Raw shaft", cut_length(cuts.raw, show)),
        ("Tip trim", trim),
        (
            "Dry fit, seated tip to the 60-degree plane",
            cut_length(sheet.parts.head.to_plane, show),
        ),
        (
            "Butt trim",
            f"{cut_length(cuts.butt_cut, show)} ({show.mass(cuts.butt_piece.mass, 1)})",
        ),
        ("Shaft, cut", cut_length(cuts.kept, show)),
        ("Into the head", show.mass(answer.head_added or 0.0, 1)),
        ("Into the butt", show.mass(answer.butt_added or 0.0, 1)),
    )


def trade_rows(trades: tuple[Instead, ...], solved: SolvedBuild, show: Show) -> list[TradeShown]:
    """Return the clubs that can be built instead."""
    scale = solved.sheet.target.scale
    return [
        TradeShown(
            what=trade_text(one, show),
            head=show.mass_apart(one.head_added, 1),
            butt=show.mass_apart(one.butt_added, 1),
            mass=show.mass(one.club.mass, 1),
            points=swingweight_text(club_points(one.club, scale), show),
            inertia=f"{show.number(one.club.inertia / INERTIA)} kg cm²",
        )
        for one in trades
    ]


def _target(
    checked: Checked, wanted: float | None, value: float | None, solved: SolvedBuild, show: Show
) -> TargetShown:
    shown = _shown(checked, show)
    return TargetShown(
        what=_name(checked, solved.sheet, show),
        target=NONE if wanted is None else shown(wanted),
        predicted=NONE if value is None else shown(value),
        doubt=_doubt(checked, solved.errors, show),
        tolerance=_room(checked, solved.sheet, show),
        tight=checked in solved.tight,
    )


def _wanted(checked: Checked, solved: SolvedBuild) -> float | None:
    target = solved.sheet.target
    return {
        Checked.LENGTH: target.length,
        Checked.SWINGWEIGHT: target.swingweight,
        Checked.MASS: target.mass,
        Checked.INERTIA: target.inertia,
    }.get(checked)


def _of_club(checked: Checked, club: Club, solved: SolvedBuild) -> float:
    if checked is Checked.SWINGWEIGHT:
        return club_points(club, solved.sheet.target.scale)
    return float(getattr(club, checked.value))


def _doubt(checked: Checked, errors: ClubErrors | None, show: Show) -> str:
    if errors is None:
        return NONE
    return _size(checked, NINETY_FIVE * getattr(errors, checked.value), show)


def _room(checked: Checked, sheet: BuildSheet, show: Show) -> str:
    return _size(checked, getattr(sheet.tolerances, checked.value), show)


def _shown(checked: Checked, show: Show) -> Callable[[float], str]:
    if checked is Checked.SWINGWEIGHT:
        return lambda value: swingweight_text(value, show)
    if checked in {Checked.LENGTH, Checked.BALANCE}:
        return show.length
    return lambda value: _size(checked, value, show)


def _size(checked: Checked, value: float, show: Show) -> str:
    """Return a size of a quantity without a sign."""
    if checked is Checked.SWINGWEIGHT:
        return f"{show.number(value, 1)} points"
    if checked in {Checked.LENGTH, Checked.BALANCE, Checked.GRIP}:
        return cut_length(value, show)
    if checked is Checked.MASS:
        return show.mass(value, 1)
    if checked is Checked.INERTIA:
        return f"{show.number(value / INERTIA)} kg cm²"
    if checked is Checked.FREQUENCY:
        return f"{show.number(value / CYCLE_PER_MINUTE, 1)} cpm"
    return show.angle(value)


def _apart(checked: Checked, value: float, show: Show) -> str:
    if checked is Checked.SWINGWEIGHT:
        return f"{show.signed(value, 1)} points"
    if checked is Checked.LENGTH:
        return show.length_apart(value)
    if checked is Checked.MASS:
        return show.mass_apart(value, 1)
    return f"{show.signed(value / INERTIA, 0)} kg cm²"


def _name(checked: Checked, sheet: BuildSheet, show: Show) -> str:
    name = CHECKED_WORDS[checked].capitalize()
    if checked is Checked.FREQUENCY and sheet.clamp is not None and sheet.tip_mass is not None:
        return f"{name} ({show.mark(sheet.clamp)} clamp, {show.mass(sheet.tip_mass)})"
    return name
