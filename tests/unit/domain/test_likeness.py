"""Shafts apart by section: exact for plain changes, silent where nothing was seen."""

from dataclasses import replace
from math import exp, hypot, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.likeness import likeness, standing
from loftwright.domain.sections import BOUNDS, Section, bending_apart, extent, seen_share
from shafts import a_profile, times


@given(factor=st.floats(0.8, 1.25))
def test_a_shaft_stiffer_throughout_differs_by_it_everywhere(factor: float) -> None:
    found = likeness(a_profile(times(factor)), a_profile())
    assert list(found.bending) == list(Section)
    for told in (*found.bending.values(), *found.twisting.values()):
        assert told.log == pytest.approx(log(factor), abs=1e-12)
    assert found.distance == pytest.approx(abs(log(factor)), abs=1e-12)


@given(factor=st.floats(0.8, 1.25), bump=st.floats(0.8, 1.25))
def test_the_way_back_is_as_far(factor: float, bump: float) -> None:
    one = a_profile(lambda place: np.where(place > 0.6, factor, bump))
    there, back = likeness(one, a_profile()), likeness(a_profile(), one)
    for section in Section:
        assert there.bending[section].log == pytest.approx(-back.bending[section].log, abs=1e-12)
        assert there.bending[section].noise == pytest.approx(back.bending[section].noise)
    assert there.distance == pytest.approx(back.distance)


def test_a_soft_tip_is_found_at_the_tip() -> None:
    found = likeness(a_profile(lambda place: np.where(place > 0.85, 0.91, 1.0)), a_profile())
    told = found.bending[Section.TIP]
    assert abs(told.log) > abs(found.bending[Section.LOWER_MIDDLE].log)
    assert told.share == pytest.approx(-0.09, abs=1e-12)
    assert told.told
    assert abs(found.bending[Section.BUTT].log) < 1e-12
    assert not found.bending[Section.BUTT].told


def test_the_noise_of_two_shafts_adds_as_independent() -> None:
    found = bending_apart(a_profile(noise=0.01), a_profile(noise=0.02), Section.BUTT)
    assert found is not None
    assert found.noise == pytest.approx(hypot(0.01, 0.02), rel=1e-6)


def test_a_scale_that_both_share_leaves_the_ratio_alone() -> None:
    here = bending_apart(a_profile(scale=0.03), a_profile(scale=0.03), Section.TIP)
    there = bending_apart(
        a_profile(scale=0.03, bench="Bench 2"), a_profile(scale=0.03), Section.TIP
    )
    assert here is not None
    assert there is not None
    assert here.noise == pytest.approx(hypot(0.01, 0.01), rel=1e-6)
    assert there.noise == pytest.approx(hypot(0.01, 0.01, 0.03, 0.03), rel=1e-6)


def test_a_section_mostly_not_seen_has_no_figure() -> None:
    blind = a_profile(blind_from=0.95)
    found = likeness(blind, a_profile())
    assert Section.TIP not in found.bending
    assert Section.LOWER_MIDDLE in found.bending
    assert seen_share(blind, Section.TIP) < 0.05
    assert seen_share(blind, Section.BUTT) == 1.0
    assert likeness(a_profile(blind_from=0.0), a_profile()).distance is None
    assert likeness(a_profile(blind_from=0.0), a_profile()).noise is None


def test_a_shorter_shaft_is_compared_where_both_are() -> None:
    whole = a_profile(lambda place: np.where(place > 1.05, 2.0, 1.0))
    short = a_profile()
    cut = 11
    kept = {
        name: getattr(short, name)[:cut]
        for name in ("station", "bending", "bending_error", "twisting", "twisting_error")
    }
    found = bending_apart(replace(short, **kept), whole, Section.TIP)
    assert found is not None
    assert found.log == pytest.approx(0.0, abs=1e-12)


def test_what_was_not_weighed_is_not_compared() -> None:
    assert likeness(a_profile(grams=None), a_profile()).mass is None
    found = likeness(a_profile(grams=62.0), a_profile()).mass
    assert found is not None
    assert found.value == pytest.approx(0.002)
    assert found.noise == pytest.approx(hypot(0.05e-3, 0.05e-3))
    assert found.told


def test_sections_meet_and_cover_the_shaft() -> None:
    ends = [extent(section, 1.168) for section in Section]
    assert ends == [(0.0, 0.4), (0.4, 0.7), (0.7, 0.95), (0.95, 1.168)]
    assert extent(Section.TIP, 0.96) is None
    assert [low for low, _ in BOUNDS.values()] == [0.0, 0.4, 0.7, 0.95]


def test_the_newest_profile_that_is_not_set_aside_stands() -> None:
    first, second = a_profile(name="m1"), a_profile(name="m2")
    assert standing(()) is None
    assert standing((first, second)) is second
    assert standing((first, replace(second, set_aside="slipped"))) is first


def test_a_difference_is_told_beyond_two_standard_errors() -> None:
    for factor, told in ((exp(0.027), False), (exp(0.0295), True)):
        found = bending_apart(a_profile(times(factor)), a_profile(), Section.BUTT)
        assert found is not None
        assert found.told is told
