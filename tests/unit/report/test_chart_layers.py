from math import isclose, log10

import altair as alt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.report.chart_layers import at_x, at_y, chart_svg, finished, text
from loftwright.report.graduated import graduate


@given(
    low=st.floats(-1e4, 1e4, allow_nan=False),
    width=st.floats(0.05, 2e4, allow_nan=False),
)
def test_a_rule_covers_its_range_with_round_steps(low: float, width: float) -> None:
    high = low + width
    rule = graduate(low, high)
    step = rule.step / 10.0 ** round(log10(rule.step) // 1)
    assert any(isclose(step, known, rel_tol=1e-6) for known in (1.0, 2.0, 5.0, 10.0))
    assert rule.low <= low + 1e-6 * width
    assert rule.high >= high - 1e-6 * width
    assert 2 <= len(rule.long) <= 9
    assert len(rule.short) >= 2 * len(rule.long)


def test_numerals_of_a_rule_stand_on_whole_steps() -> None:
    rule = graduate(-6.4, 10.0)
    assert rule.long == pytest.approx((-5.0, 0.0, 5.0, 10.0))
    assert rule.step == pytest.approx(5.0)
    assert rule.low == pytest.approx(-7.0)


def chart(*, bold: bool) -> alt.LayerChart:
    label = [{"label": "a word"}]
    return finished([text(label, at_x(10.0), at_y(10.0), bold=bold)], 100.0, 20.0)


def test_regular_letters_name_their_weight_and_bold_ones_do_not() -> None:
    # Source: look of a rendering; of a variable font the lightest instance is the default.
    assert "font-variation-settings:'wght' 400" in chart_svg(chart(bold=False))
    bold = chart_svg(chart(bold=True))
    assert "font-variation-settings" not in bold
    assert 'font-weight="600"' in bold


def test_a_chart_is_exactly_as_large_as_asked() -> None:
    svg = chart_svg(chart(bold=True))
    assert 'width="100" height="20"' in svg
    assert "font-family=\"'Source Sans 3'\"" in svg.replace("&#39;", "'")
