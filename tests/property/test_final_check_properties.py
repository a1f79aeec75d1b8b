"""What holds of any final check: figures come back as typed, and a mend mends."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builds import DRIVER, points
from final_checks import BUILD, TYPED, readings
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.verdict import Fit
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.physics.build.club import Club, assembled, kept_length
from loftwright.report.screen_numbers import Show
from loftwright.services.build_check import check_sheet
from loftwright.web.final_forms import read_measured
from loftwright.web.forms import Typed
from loftwright.workshop.final_mends import mends

METRIC = Show(units="metric", decimal="comma")
KEPT = kept_length(DRIVER, 45.0 * INCH)


def checked_of(club: Club, head: float, butt: float) -> CheckedBuild:
    measured = readings(
        mass_g__value=club.mass / GRAM,
        balance_inch__value=club.balance / INCH,
        swingweight__value=points(club),
        built__head_added_g=head,
        built__butt_added_g=butt,
    )
    return check_sheet(read_build_text(BUILD), read_measured_text(measured))


@given(head=st.floats(0.0, 30.0), butt=st.floats(0.0, 30.0))
def test_a_club_that_is_mended_is_in(head: float, butt: float) -> None:
    club = assembled(DRIVER, KEPT, head * GRAM, butt * GRAM)
    before = checked_of(club, head, butt)
    mend = next((one for one in mends(before) if one.head is not None), None)
    assume(mend is not None and mend.possible)
    assert mend is not None
    head += (mend.head or 0.0) / GRAM
    butt += (mend.butt or 0.0) / GRAM
    after = assembled(DRIVER, KEPT, head * GRAM, butt * GRAM)
    fits = {
        one.checked: one.fit for one in checked_of(after, max(head, 0.0), max(butt, 0.0)).targets
    }
    assert fits[Checked.SWINGWEIGHT] is Fit.IN
    assert fits[Checked.MASS] is Fit.IN


@given(length=st.floats(30.0, 48.0), doubt=st.floats(0.005, 1.0))
def test_a_length_is_read_back_as_it_was_typed_in_either_system(
    length: float, doubt: float
) -> None:
    trade = read_measured(
        Typed(fields={**TYPED, "length": f"{length:.4f}", "length_u95": f"{doubt:.4f}"})
    )
    millimetres = {
        "length": f"{length * INCH / MILLIMETRE:.3f}".replace(".", ","),
        "length_u95": f"{doubt * INCH / MILLIMETRE:.4f}".replace(".", ","),
        "grip": "23,4",
        "grip_u95": "0,08",
        "balance": "840",
        "balance_u95": "1,5",
    }
    metric = read_measured(Typed(fields={**TYPED, **millimetres}, show=METRIC))
    assert trade is not None
    assert metric is not None
    for text in (trade, metric):
        reading = read_measured_text(text).checked[Checked.LENGTH]
        assert reading.value == pytest.approx(length * INCH, abs=0.002 * MILLIMETRE)
        assert reading.half_width == pytest.approx(doubt * INCH, abs=0.002 * MILLIMETRE)


@given(text=st.text(max_size=12))
def test_whatever_is_typed_is_read_or_told_at_its_field(text: str) -> None:
    for name in ("length", "length_u95", "swingweight", "inertia", "frequency", "volume", "clamp"):
        typed = Typed(fields={**TYPED, name: text})
        measured = read_measured(typed)
        assert (measured is None) == bool(typed.faults)
        assert typed.fields[name] == text
