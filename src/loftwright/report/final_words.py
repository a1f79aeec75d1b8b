"""What is said of a finished club at its final check, in the shop's own units.

No sentence says what a club is under the Rules: readings lie below a limit, above it, or too close
to call.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, NamedTuple

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)
from loftwright.domain.build_sheet import CheckedBuild, Mind
from loftwright.domain.built import Checked, TargetLine
from loftwright.domain.check_acts import Outcome
from loftwright.domain.limits import CUBIC_CENTIMETRE, LimitLine, Measured
from loftwright.domain.verdict import Fit
from loftwright.physics.build.swingweight import letters
from loftwright.report.build_words import (
    CHECKED_WORDS,
    MEASURED_WORDS,
    METHOD_WORDS,
    SIDE_WORDS,
    check_warnings,
    contradiction_words,
)
from loftwright.report.numbers import NONE, count, listed
from loftwright.report.screen_numbers import Show

FIT_WORDS: Final = {Fit.IN: "in", Fit.OUT: "out", Fit.CANNOT_TELL: "cannot tell"}
OUTCOME_WORDS: Final = {
    Outcome.ACCEPT: "Accepted",
    Outcome.REWORK: "Rework",
    Outcome.REJECT: "Rejected",
}
GOLFER_TOLD: Final = (
    "The first shots are half speed, and we listen for a creak or a click.",
    "The screw is checked again after the first session.",
    "Sleeve and weights stay as they are during a round.",
)
"""What the golfer is told with the club (common practice, no source; Rule 4.1a(3) on the last)."""


class Written(NamedTuple):
    """How a quantity is written: its unit, the unit's size and the decimals."""

    unit: str
    size: float
    digits: int


_POINTS: Final = Written("points", 1.0, 1)
_ANGLE: Final = Written("\N{DEGREE SIGN}", DEGREE, 2)
_ALIKE: Final = {
    Checked.SWINGWEIGHT: _POINTS,
    Checked.MASS: Written("g", GRAM, 1),
    Checked.INERTIA: Written("kg cm²", KILOGRAM_SQUARE_CENTIMETRE, 0),
    Checked.LOFT: _ANGLE,
    Checked.LIE: _ANGLE,
    Checked.FACE: _ANGLE,
    Checked.FREQUENCY: Written("cpm", CYCLE_PER_MINUTE, 1),
}
_FINE: Final = frozenset({Checked.GRIP})


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictRow:
    """A reading beside its target, as text.

    Attributes
    ----------
    what : str
        With its unit.
    target : str
        In brackets where nobody asked for it, so that it is what the parts come to.
    comes_to : str
        Of the parts as they were built; a dash where masses do not tell it.
    off : str
        How far the reading is from its target.
    """

    what: str
    measured: str
    doubt: str
    target: str
    comes_to: str
    tolerance: str
    off: str
    verdict: str
    tight: bool


def written(checked: Checked, show: Show) -> Written:
    """Return how a quantity of a finished club is written."""
    if checked in _ALIKE:
        return _ALIKE[checked]
    fine = checked in _FINE
    if show.units == "metric":
        return Written("mm", MILLIMETRE, 2 if fine else 1)
    return Written("in", INCH, 3 if fine else 2)


def figure(checked: Checked, value: float, show: Show) -> str:
    """Return a bare figure [SI, swingweight in points, which is written in letters]."""
    if checked is Checked.SWINGWEIGHT:
        return show.words(letters(value))
    how = written(checked, show)
    return show.number(value / how.size, how.digits)


def with_unit(checked: Checked, value: float, show: Show) -> str:
    """Return a figure with its unit [SI, swingweight in points]."""
    if checked is Checked.SWINGWEIGHT:
        return figure(checked, value, show)
    unit = written(checked, show).unit
    space = "" if unit == "\N{DEGREE SIGN}" else " "
    return f"{figure(checked, value, show)}{space}{unit}"


def apart(checked: Checked, value: float, show: Show) -> str:
    """Return a difference with its sign and unit [SI, swingweight in points]."""
    how = written(checked, show)
    space = "" if how.unit == "\N{DEGREE SIGN}" else " "
    return f"{show.signed(value / how.size, how.digits)}{space}{how.unit}"


def verdict_rows(checked: CheckedBuild, show: Show) -> tuple[VerdictRow, ...]:
    """Return every reading beside its target."""
    return tuple(_row(line, checked, show) for line in checked.targets)


def _row(line: TargetLine, checked: CheckedBuild, show: Show) -> VerdictRow:
    how = written(line.checked, show)

    def size(value: float) -> str:
        return show.number(value / how.size, how.digits)

    target = figure(line.checked, line.target, show)
    comes_to = checked.predicted.get(line.checked)
    return VerdictRow(
        what=f"{sentence(CHECKED_WORDS[line.checked])}, {how.unit}",
        measured=figure(line.checked, line.reading.value, show),
        doubt=size(line.reading.half_width),
        target=target if line.asked else f"({target})",
        comes_to=NONE if comes_to is None else figure(line.checked, comes_to.value, show),
        tolerance=size(line.tolerance),
        off=show.signed((line.reading.value - line.target) / how.size, how.digits),
        verdict=FIT_WORDS[line.fit],
        tight=line.tight,
    )


def verdict_sentence(checked: CheckedBuild, show: Show) -> str:
    """Return the answer of a check in one sentence."""
    lines = checked.targets
    if not lines:
        return "Nothing that has a target was measured."
    if checked.contradicted:
        return "Readings contradict each other: measure them again before anything is changed."
    out = [line for line in lines if line.fit is Fit.OUT]
    if out:
        return _out(out, show)
    near = [CHECKED_WORDS[line.checked] for line in lines if line.fit is Fit.CANNOT_TELL]
    if near:
        return f"Nothing is out; {listed(near)} cannot be told."
    if len(lines) == 1:
        return "The one reading with a target is in."
    return f"All {count(len(lines), 'reading')} with a target are in."


def _out(lines: Sequence[TargetLine], show: Show) -> str:
    if len(lines) > 2:
        names = listed([CHECKED_WORDS[line.checked] for line in lines])
        return f"{len(lines)} readings are out: {names}."
    far = [
        f"{CHECKED_WORDS[line.checked]} by "
        f"{apart(line.checked, line.reading.value - line.target, show)}"
        for line in lines
    ]
    return f"Out: {listed(far)}."


def limit_line(line: LimitLine, checked: CheckedBuild, show: Show) -> str:
    """Return a reading beside a published limit, in the words of a measurement."""
    measured, reading = line.limit.measured, line.reading
    how = _limit_unit(measured, show)
    method = METHOD_WORDS[checked.measured.method]
    name = sentence(MEASURED_WORDS[measured])
    told = f"{name} ({method})" if measured is Measured.LENGTH else name
    rough = ", roughly" if line.limit.roughly else ""
    kind = "Published lower limit" if line.limit.least else "Published limit"
    if line.limit.local:
        kind = "Limit of the competition's local rule"
    limit = show.words(f"{line.limit.value / how.size:g}")
    return (
        f"{told}: {show.number(reading.value / how.size, how.digits)} ± "
        f"{show.number(reading.half_width / how.size, how.digits)} {how.unit}{rough}. {kind} "
        f"{limit} {how.unit}: {SIDE_WORDS[line.side]}."
    )


def _limit_unit(measured: Measured, show: Show) -> Written:
    if measured is Measured.VOLUME:
        return Written("cm³", CUBIC_CENTIMETRE, 0)
    fine = measured is Measured.GRIP_RIB
    if show.units == "metric":
        return Written("mm", MILLIMETRE, 2 if fine else 1)
    return Written("in", INCH, 3 if fine else 2)


def contradiction_lines(checked: CheckedBuild, show: Show) -> list[str]:
    """Return which readings cannot all be right, and what to do."""
    return [sentence(show.words(contradiction_words(one))) + "." for one in checked.contradicted]


def minded(checked: CheckedBuild, show: Show) -> list[str]:
    """Return what to mind of a checked club."""
    bare = replace(checked, minds=checked.minds - {Mind.GRIP_OUTSIDE})
    said = [sentence(show.words(one)) + "." for one in check_warnings(bare)]
    made = checked.sheet.build_up
    if Mind.GRIP_OUTSIDE in checked.minds and made is not None:
        low, high = (figure(Checked.GRIP, one, show) for one in (made.size.low, made.size.high))
        unit = written(Checked.GRIP, show).unit
        said.append(
            f"The grip lies outside the {low} to {high} {unit} that butt, core and tape come to: "
            "look at all three and at how far it was stretched. The callipered figure counts."
        )
    return said


def names_of(checked: Sequence[Checked]) -> str:
    """Return quantities as a list in words."""
    return listed([CHECKED_WORDS[one] for one in checked])


def sentence(text: str) -> str:
    """Return a text with a capital."""
    return text[:1].upper() + text[1:]
