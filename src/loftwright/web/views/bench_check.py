"""A quick check in words: which figures are the kept shaft's, and why another may not be."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH, MILLIMETRE
from loftwright.physics.bench.handling import Cause
from loftwright.physics.bench.quick_check import Compared, Explanation
from loftwright.report.numbers import fixed, listed, signed
from loftwright.services.quick_checking import Checked

_NAMES: Final = {
    "mass": "Weight",
    "balance": "Balance point",
    "frequency": "Frequency",
    "length": "Length",
}
_CAUSES: Final = {
    Cause.TRIMMED_TIP: "a trimmed tip",
    Cause.TRIMMED_BUTT: "a cut butt",
    Cause.GRIP_ON: "a grip that was not typed",
    Cause.GRIP_OFF: "no grip on it",
    Cause.SLEEVE_ON: "a sleeve that was not typed",
    Cause.SLEEVE_OFF: "no sleeve on it",
    Cause.CLAMP: "another clamp depth",
    Cause.WEIGHT: "another weight on the end",
    Cause.LABELS: "labels mixed up",
    Cause.ANOTHER_PIECE: "another shaft",
}
_MASSES: Final = {Cause.GRIP_ON, Cause.SLEEVE_ON, Cause.WEIGHT}
_SIGNED: Final = {Cause.CLAMP, Cause.WEIGHT}
_LIKELY: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureRow:
    """One of today's figures beside the kept shaft's."""

    name: str
    read: str
    kept: str
    off: str
    far: str
    differs: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckView:
    """The page of a quick check.

    Attributes
    ----------
    likely : tuple of str
        What may have made the figures differ, the likeliest first.
    assumed : str
        What of the kept shaft was never measured; empty if nothing.
    """

    sentence: str
    lead: str
    figures: tuple[FigureRow, ...] = ()
    likely: tuple[str, ...] = ()
    assumed: str = ""


def bare_view(name: str, *, measured: bool) -> CheckView:
    """Return the page before anything is typed."""
    if not measured:
        return CheckView(
            sentence=f"{name} has no profile yet: there is nothing to check against.",
            lead="Measure it on the bench once; then six entries tell whether it is still itself.",
        )
    return CheckView(
        sentence=f"Is this still {name}? Weight, balance and one frequency tell.",
        lead="A minute, not a profile: it tells the shaft from another, and nothing of its parts.",
    )


def check_view(name: str, checked: Checked, names: Mapping[str, str], lengths: str) -> CheckView:
    """Return the page of a quick check.

    Parameters
    ----------
    name : str
        Of the shaft.
    checked : Checked
    names : mapping of str to str
        What the other shafts are called, by id.
    lengths : {"mm", "in"}
    """
    check = checked.check
    figures = tuple(_row(one, lengths) for one in check.figures)
    assumed = ""
    if checked.assumed:
        assumed = f"Never measured of the kept shaft: {listed(checked.assumed)}."
    if check.agrees:
        return CheckView(
            sentence=f"This is {name} as it was kept, within what the bench repeats.",
            lead="Every figure lies within three standard errors of both.",
            figures=figures,
            assumed=assumed,
        )
    likely = tuple(_cause(one, names, lengths) for one in check.likely[:_LIKELY])
    off = listed([row.name.lower() for row in figures if row.differs])
    return CheckView(
        sentence=f"{name} does not read as it was kept: {likely[0]}?",
        lead=f"Off by more than three standard errors: {off}.",
        figures=figures,
        likely=likely,
        assumed=assumed,
    )


def _row(one: Compared, lengths: str) -> FigureRow:
    return FigureRow(
        name=_NAMES[one.figure],
        read=_figure(one.figure, one.read, lengths),
        kept=_figure(one.figure, one.expected, lengths),
        off=f"{signed(100.0 * one.off, 1)} %",
        far=signed(one.surprise, 1),
        differs=abs(one.surprise) > 3.0,
    )


def _figure(name: str, value: float, lengths: str) -> str:
    if name == "mass":
        return f"{fixed(value / GRAM, 1)} g"
    if name == "frequency":
        return f"{fixed(value / CYCLE_PER_MINUTE, 1)} cpm"
    return _length(value, lengths)


def _length(value: float, lengths: str) -> str:
    if lengths == "in":
        return f"{fixed(value / INCH, 2)} in"
    return f"{fixed(value / MILLIMETRE, 1)} mm"


def _cause(one: Explanation, names: Mapping[str, str], lengths: str) -> str:
    said = _CAUSES[one.cause]
    if one.cause is Cause.LABELS:
        return f"{said}: this is {names.get(one.name, one.name)}"
    if one.size is None:
        return said
    if one.cause in _MASSES:
        size = f"{fixed(abs(one.size) / GRAM, 1)} g"
    else:
        size = _length(abs(one.size), lengths)
    if one.cause in _SIGNED:
        more = "more" if one.size > 0.0 else "less"
        return f"{said} ({size} {more})"
    return f"{said} (about {size})"
