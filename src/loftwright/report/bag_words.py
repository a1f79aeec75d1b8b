"""What is said of a bag: figures, steps, and the one thing that stands out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, GRAM, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.bag import Known, Timed
from loftwright.domain.bag_figures import HALF_INCH
from loftwright.domain.bag_runs import Departure, Run
from loftwright.domain.limits import LimitLine
from loftwright.domain.verdict import Reading
from loftwright.physics.build.swingweight import letters
from loftwright.report.build_words import SIDE_WORDS
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show

KNOWN_WORDS: Final = {
    Known.LOFT: "loft",
    Known.LENGTH: "length",
    Known.MASS: "weight",
    Known.BALANCE: "balance point",
    Known.SWINGWEIGHT: "swingweight",
    Known.INERTIA: "club MOI",
    Known.FREQUENCY: "frequency",
}
INERTIA: Final = KILOGRAM_SQUARE_CENTIMETRE


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What a bag's page says first.

    Attributes
    ----------
    sentence, lead : str
    club : str
        The club it speaks of; empty where it speaks of none.
    """

    sentence: str
    lead: str
    club: str = ""


def figure_words(known: Known, value: float, show: Show) -> str:
    """Return a figure of a club [SI, points] with its unit.

    Parameters
    ----------
    known : Known
    value : float
    show : Show
    """
    match known:
        case Known.LOFT:
            return show.angle(value)
        case Known.LENGTH | Known.BALANCE:
            return show.length(value)
        case Known.MASS:
            return show.mass(value, 1)
        case Known.SWINGWEIGHT:
            return show.words(letters(value))
        case Known.INERTIA:
            return f"{show.number(value / INERTIA)} kg cm²"
    return f"{show.number(value / CYCLE_PER_MINUTE)} cpm"


def doubt_words(known: Known, half_width: float, show: Show) -> str:
    """Return half the width of a range [SI, points] as ``± 0.05 in``.

    Parameters
    ----------
    known : Known
    half_width : float
    show : Show
    """
    match known:
        case Known.LOFT:
            return f"± {show.number(half_width / show.unit('angle').scale, 2)}°"
        case Known.LENGTH | Known.BALANCE:
            unit = show.unit("length")
            digits = 1 if unit.name == "mm" else 2
            return f"± {show.number(half_width / unit.scale, digits)} {unit.name}"
        case Known.MASS:
            return f"± {show.mass(half_width, 1)}"
        case Known.SWINGWEIGHT:
            return f"± {show.number(half_width, 1)}"
        case Known.INERTIA:
            return f"± {show.number(half_width / INERTIA)} kg cm²"
    return f"± {show.number(half_width / CYCLE_PER_MINUTE, 1)} cpm"


def apart_words(known: Known, value: float, show: Show) -> str:
    """Return a difference of two clubs [SI, points] with its sign.

    Parameters
    ----------
    known : Known
    value : float
    show : Show
    """
    match known:
        case Known.LENGTH:
            return show.length_apart(value)
        case Known.MASS:
            return show.mass_apart(value, 1)
        case Known.SWINGWEIGHT:
            return show.signed(value, 1)
        case Known.INERTIA:
            return f"{show.signed(value / INERTIA, 0)} kg cm²"
    return f"{show.signed(value / CYCLE_PER_MINUTE, 1)} cpm"


def set_up_words(timed: Timed, show: Show) -> str:
    """Return what a frequency means nothing without."""
    weight = "own head" if timed.tip_mass is None else show.mass(timed.tip_mass)
    return f"{show.length(timed.clamp)} clamp, {weight}"


def half_inch_words(show: Show) -> str:
    """Return what the rise of frequency is counted by."""
    if show.units == "metric":
        return f"cpm per {show.mark(HALF_INCH, 1)} shorter"
    return "cpm per half inch shorter"


def rise_words(rise: Reading, show: Show) -> tuple[str, str]:
    """Return the rise of frequency for half an inch less, and its doubt."""
    return (
        show.signed(rise.value / CYCLE_PER_MINUTE, 1),
        f"± {show.number(rise.half_width / CYCLE_PER_MINUTE, 1)}",
    )


def limit_line_words(name: str, line: LimitLine, show: Show) -> str:
    """Return a length beside a published limit, in the words of a measurement.

    Parameters
    ----------
    name : str
        Of the club.
    line : LimitLine
        Of a length by the 60-degree plane.
    show : Show
    """
    kind = "Published lower limit" if line.limit.least else "Published limit"
    if line.limit.local:
        kind = "Limit of the competition’s local rule"
    reading = line.reading
    return (
        f"{name}: measured length {show.length(reading.value)} (by the 60-degree plane) "
        f"{doubt_words(Known.LENGTH, reading.half_width, show)}. {kind} "
        f"{show.length(line.limit.value)}: {SIDE_WORDS[line.side]}."
    )


def bag_finding(
    clubs: int, runs: Sequence[Run], set_ups: dict[str, Timed], show: Show, *, scale_known: bool
) -> Finding:
    """Return what a bag's page says first, and the one thing to object.

    Parameters
    ----------
    clubs : int
        In play.
    runs : sequence of Run
    set_ups : dict of str to Timed
        How each club's frequency was read.
    show : Show
    scale_known : bool
        Whether every swingweight was read on a scale or the shop's own is calibrated.
    """
    if not clubs:
        return Finding(
            sentence="No club of this bag is written down yet.",
            lead="Take over a club that is known here, type one, or read a table.",
        )
    if not runs:
        return Finding(
            sentence=f"{count(clubs, 'club')} in play, and no row of three to compare yet.",
            lead="Loft, length and one more figure of three irons are enough; a driver and a "
            "putter are built for themselves.",
        )
    scale = (
        ""
        if scale_known
        else " Swingweights from weight and balance point stand on the usual scale, which no club "
        "of yours has calibrated."
    )
    out = [(run, one) for run in runs for one in run.out]
    if out:
        out.sort(key=lambda pair: -abs(pair[1].apart) / pair[1].half_width)
        return _standing_out(out, set_ups, show, scale)
    return _no_single_one(runs, scale)


def _standing_out(
    out: Sequence[tuple[Run, Departure]], set_ups: dict[str, Timed], show: Show, scale: str
) -> Finding:
    run, one = out[0]
    others = [f"{other.name} in {KNOWN_WORDS[there.known]}" for there, other in out[1:4]]
    also = f" Farther out than doubts allow are also {listed(others)}." if others else ""
    if len(others) == 1:
        also = f" Farther out than doubts allow is also {others[0]}."
    doubt = doubt_words(run.known, one.half_width, show)
    return Finding(
        sentence=f"{_beyond(run, one, set_ups, show)} an even run of the {run.row.value}.",
        lead=f"That is known to {doubt}; measure it again before it is changed.{also}{scale}",
        club=one.name,
    )


def _beyond(run: Run, one: Departure, set_ups: dict[str, Timed], show: Show) -> str:
    size, more = abs(one.apart), one.apart > 0.0
    if run.known is Known.LENGTH:
        return f"{one.name} is {show.length(size)} {'longer' if more else 'shorter'} than"
    if run.known is Known.SWINGWEIGHT:
        points = f"{show.number(size, 1)} points"
        return f"{one.name} is {points} {'heavier' if more else 'lighter'} in swingweight than"
    if run.known is Known.INERTIA:
        figure = figure_words(run.known, size, show)
        return f"{one.name} has {figure} {'more' if more else 'less'} club MOI than"
    how = set_up_words(set_ups[one.name], show)
    figure = figure_words(run.known, size, show)
    return f"{one.name} swings {figure} {'faster' if more else 'slower'} ({how}) than"


def _no_single_one(runs: Sequence[Run], scale: str) -> Finding:
    either = next((run for run in runs if run.either), None)
    if either is not None:
        one, other = (there.name for there in either.either)
        return Finding(
            sentence=f"Either {one} or {other} is off an even {KNOWN_WORDS[either.known]} of the "
            f"{either.row.value}.",
            lead=f"Without the one or the other the rest runs evenly: measure both again.{scale}",
            club=one,
        )
    rough = [run for run in runs if not run.even]
    if rough:
        first = rough[0]
        more = [f"the {run.row.value} in {KNOWN_WORDS[run.known]}" for run in rough[1:4]]
        also = f" Nor do {listed(more)}." if more else ""
        return Finding(
            sentence=f"The {first.row.value} make no even run in {KNOWN_WORDS[first.known]}.",
            lead=f"No one club is to blame for it; the steps below show where it jumps.{also}"
            f"{scale}",
        )
    told = listed([f"{row} in {what}" for row, what in _compared(runs)])
    return Finding(
        sentence="Nothing stands out of an even run by more than its doubt.",
        lead=f"Compared were {told}.{scale}",
    )


def _compared(runs: Sequence[Run]) -> list[tuple[str, str]]:
    rows = dict.fromkeys(run.row for run in runs)
    return [
        (row.value, listed([KNOWN_WORDS[run.known] for run in runs if run.row is row]))
        for row in rows
    ]


def left_out_words(lacking: Mapping[Known, Sequence[str]]) -> str:
    """Return which clubs are not compared for want of a loft or a length; empty for none.

    Parameters
    ----------
    lacking : mapping of Known to sequence of str
        Names of clubs by what they lack.
    """
    told = [
        f"{listed(list(names))} for want of a {KNOWN_WORDS[known]}"
        for known, names in lacking.items()
        if names
    ]
    return f"Not compared: {'; '.join(told)}." if told else ""


def mass_and_balance(mass: float | None, balance: float | None, show: Show) -> tuple[str, str]:
    """Return weight and balance point, the second under the first; empty where not known.

    Parameters
    ----------
    mass, balance : float or None
        [kg, m]
    show : Show
    """
    weight = "" if mass is None else f"{show.number(mass / GRAM, 1)} g"
    return weight, "" if balance is None else f"at {show.length(balance)}"
