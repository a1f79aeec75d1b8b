"""What a bench will find of a club that was built as its sheet and its departures say."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.constants import GRAM, INCH
from loftwright.intake.build_text import read_build_text
from loftwright.physics.build.solve import solve
from loftwright.services.final_check import HeldRound
from loftwright.services.sheet_now import SheetNow

_MADE: Final = {
    "made.cut_length_inch": INCH,
    "made.head_added_g": GRAM,
    "made.butt_added_g": GRAM,
}
"""Departures from what the sheet solves to, in the unit they are written in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltAs:
    """Length of the cut shaft, and what is in head and butt [m, kg, kg]."""

    kept: float
    head: float
    butt: float


def built_as(sheet: SheetNow, rounds: Sequence[HeldRound], *, changed: bool) -> BuiltAs | None:
    """Return how a club was built: as last measured, or as its sheet and departures say.

    Parameters
    ----------
    sheet : SheetNow
    rounds : sequence of HeldRound
    changed : bool
        Whether sheet, bond or parts changed after the newest round.

    Returns
    -------
    BuiltAs or None
        None where the sheet that was issued cannot be built.
    """
    issued = read_build_text(sheet.issued.build)
    answer = solve(issued.parts, issued.target)
    if answer.cuts is None or not answer.feasible:
        return None
    planned = (answer.cuts.kept, answer.head_added or 0.0, answer.butt_added or 0.0)
    told = {one.key: float(one.built) for one in sheet.departures if one.key in _MADE}
    kept, head, butt = (
        told[key] * unit if key in told else max(value, 0.0)
        for (key, unit), value in zip(_MADE.items(), planned, strict=True)
    )
    found = None if not rounds or changed else rounds[-1].checked.measured
    if found is not None:
        kept = kept if found.kept is None else found.kept
        head = head if found.head_added is None else found.head_added
        butt = butt if found.butt_added is None else found.butt_added
    return BuiltAs(kept=kept, head=head, butt=butt)
