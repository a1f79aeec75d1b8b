"""The fields in which a club is read again, each with what it was."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.verdict import Reading
from loftwright.intake.build_text import read_measured_text
from loftwright.report.complaint_words import FIGURE_NAMES
from loftwright.report.screen_numbers import Show
from loftwright.web.after_forms import FIGURES
from loftwright.web.views.complaint import figure_words
from loftwright.workshop.standing import newest, standing

_USUAL: Final = {
    Checked.LENGTH: 0.03 * INCH,
    Checked.SWINGWEIGHT: 0.3,
    Checked.MASS: 0.3 * GRAM,
    Checked.LOFT: 0.3 * DEGREE,
    Checked.LIE: 0.3 * DEGREE,
    Checked.FACE: 0.3 * DEGREE,
}
"""How far a careful reading may be off, 95 times in 100 (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureField:
    """A figure that may be read again.

    Attributes
    ----------
    name : str
        Of its field; that of its doubt ends in `_u95`.
    words, unit : str
    before : str
        What it was at the final check.
    doubt : str
        What stands in the field of its doubt at first.
    """

    name: str
    words: str
    unit: str
    before: str
    doubt: str


def figure_fields(record: Sequence[JobEntry], show: Show) -> tuple[FigureField, ...]:
    """Return the figures that a complaint asks for.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    show : Show
    """
    before = _final_check(record)
    fields = []
    for name, _, quantity, _ in FIGURES:
        checked = Checked(name)
        old = before.get(checked)
        doubt = old.half_width if old is not None else _USUAL[checked]
        fields.append(
            FigureField(
                name=name,
                words=FIGURE_NAMES[checked],
                unit=show.unit(quantity).name if quantity else "letter and number",
                before="" if old is None else figure_words(checked, old.value, show),
                doubt=_typed(doubt, quantity, show),
            )
        )
    return tuple(fields)


def _typed(doubt: float, quantity: str, show: Show) -> str:
    if quantity:
        return show.typed(quantity, doubt)
    return show.words(f"{doubt:g}")


def _final_check(record: Sequence[JobEntry]) -> Mapping[Checked, Reading]:
    received = newest(standing(record), Received)
    if received is None or not received.measured.strip():
        return {}
    return read_measured_text(received.measured).checked
