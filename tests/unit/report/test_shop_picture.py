"""The picture of what models do: one row each over a rule that holds every range."""

import re

from hypothesis import given
from hypothesis import strategies as st

from loftwright.report.look import ACCENT, SHEET
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_picture import ModelRow, models_picture
from loftwright.report.theme_svg import for_screen


def a_row(mean: float, reach: float, *, hit: bool = True, name: str = "Heron 60") -> ModelRow:
    half = 0.4 * reach
    return ModelRow(
        name=name,
        mean=mean,
        half=(mean - half, mean + half),
        most=(mean - reach, mean + reach),
        sure=abs(mean) > reach,
        hit=hit,
    )


def drawn(*rows: ModelRow, show: Show | None = None) -> str:
    return models_picture(
        rows, title="Spin", zero="the usual shaft", unit=" rpm", show=show or Show()
    )


def shapes(svg: str) -> list[tuple[float, str]]:
    """Return where the marks stand and their fill."""
    found = re.findall(r'<path d="M([\d.]+),[^"]*Z" fill="(#\w+)"', svg)
    return [(float(x), fill) for x, fill in found]


def test_a_mark_is_full_where_nought_lies_outside_and_hollow_else() -> None:
    fills = [fill for _, fill in shapes(drawn(a_row(-180.0, 80.0), a_row(20.0, 80.0)))]
    assert fills == [ACCENT, SHEET]


def test_what_is_only_carried_over_is_dashed() -> None:
    assert drawn(a_row(1.0, 2.0)).count("stroke-dasharray") == 0
    assert drawn(a_row(1.0, 2.0, hit=False)).count("stroke-dasharray") == 1


def test_zero_is_named_and_bears_the_unit() -> None:
    svg = drawn(a_row(-180.0, 80.0))
    assert ">the usual shaft<" in svg
    assert ">0 rpm<" in svg
    assert ">−200<" in svg


def test_numerals_have_the_shop_s_decimal_mark_and_a_page_can_show_them() -> None:
    svg = drawn(a_row(0.2, 0.3), show=Show(units="metric", decimal="comma"))
    assert re.search(r">[+−]0,\d<", svg)
    assert "var(--ink)" in for_screen(svg)


def test_a_long_name_is_cut_to_its_room() -> None:
    assert "…" in drawn(a_row(1.0, 2.0, name="A very long name of a shaft " * 3))


@given(
    st.lists(st.tuples(st.floats(-500.0, 500.0), st.floats(0.01, 400.0)), min_size=1, max_size=16)
)
def test_every_mark_stands_on_the_rule_in_the_order_of_its_value(
    told: list[tuple[float, float]],
) -> None:
    rows = [a_row(mean, reach) for mean, reach in told]
    places = [x for x, _ in shapes(drawn(*rows))]
    assert len(places) == len(rows)
    assert all(270.0 <= x <= 850.0 for x in places)
    for one, (x, row) in enumerate(zip(places, rows, strict=True)):
        for y, other in zip(places[one:], rows[one:], strict=True):
            if row.mean < other.mean - 1.0:
                assert x <= y
