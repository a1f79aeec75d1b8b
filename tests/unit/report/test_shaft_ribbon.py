"""The shaft lying down: thickness in per cent, the band of the bench, hatching where not seen."""

import re

import numpy as np

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import Section
from loftwright.report.look import HAIR, INK
from loftwright.report.shaft_ribbon import shaft_ribbon
from shafts import a_profile, times

MIDDLE = 138.0
UNDER = {section: f"under the {section.value}" for section in Section}


def drawn(
    one: MeasuredProfile | None = None,
    other: MeasuredProfile | None = None,
    *,
    name: str = "Rush",
    reference: str = "Reed",
) -> str:
    mine, against = one or a_profile(), other or a_profile()
    return shaft_ribbon(mine, against, name=name, reference=reference, under=UNDER)


def edges(svg: str) -> list[list[float]]:
    """Return the heights of the inked edges, the upper ones first."""
    found = re.findall(rf'<path d="M([^"]*)" fill="none" stroke="{INK}" stroke-width="2.6"', svg)
    return [[float(point.split()[1]) for point in path.split("L")] for path in found]


def test_a_shaft_against_itself_lies_on_the_reference() -> None:
    top, foot = edges(drawn())
    assert {round(MIDDLE - y, 1) for y in top} == {44.0}
    assert {round(y - MIDDLE, 1) for y in foot} == {44.0}


def test_a_stiffer_shaft_is_thicker_and_a_softer_tip_thinner() -> None:
    (stiffer, _) = edges(drawn(a_profile(times(1.2))))
    assert max(stiffer) < MIDDLE - 44.0
    (soft, _) = edges(drawn(a_profile(lambda place: np.where(place > 0.9, 0.8, 1.0))))
    assert soft[-1] > soft[0]


def test_a_worse_bench_has_a_wider_band() -> None:
    def width(noise: float) -> float:
        svg = drawn(a_profile(times(1.1), noise=noise), a_profile(noise=noise))
        band = re.findall(rf'<path d="M([^"]*)Z" fill="{HAIR}"', svg)[0].split("L")
        heights = [float(point.split()[1]) for point in band]
        (top, _) = edges(svg)
        return (max(heights) - min(heights)) / (MIDDLE - 44.0 - min(top))

    assert width(0.02) > 1.5 * width(0.01)


def test_what_was_not_seen_is_hatched_and_has_no_edge() -> None:
    seen, blind = drawn(), drawn(a_profile(blind_from=0.75))
    assert "not seen" not in seen
    assert ">not seen<" in blind
    (top, _) = edges(blind)
    assert len(top) < 0.75 * len(edges(seen)[0])


def test_the_two_edges_of_the_softest_place_never_meet() -> None:
    top, foot = edges(drawn(a_profile(times(0.35))))
    assert all(upper < lower for upper, lower in zip(top, foot, strict=True))


def test_every_section_has_its_place_in_both_units_and_its_words() -> None:
    svg = drawn()
    for words in ("0 to 400 mm", "0.0 to 15.7 in", "950 to 1168 mm", "37.4 to 46.0 in"):
        assert words in svg
    assert all(words in svg for words in UNDER.values())


def test_names_are_escaped() -> None:
    svg = drawn(name="<Rush>", reference="Reed & Co")
    assert "&lt;Rush&gt; in per cent of Reed &amp; Co" in svg
    assert "<Rush>" not in svg


def test_no_band_leaves_the_picture_where_the_seen_part_ends() -> None:
    svg = drawn(a_profile(times(1.05), blind_from=0.75), a_profile(blind_from=0.9))
    for band in re.findall(rf'<path d="M([^"]*)Z" fill="{HAIR}"', svg):
        heights = [float(point.split()[1]) for point in band.split("L")]
        assert min(heights) >= MIDDLE - 44.0 - 62.0 - 0.1
        assert max(heights) <= MIDDLE + 44.0 + 62.0 + 0.1
