"""What was learned, of the things in the rack: as swung, from the same swing, and from whom."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import INCH, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.rack import Assembly
from loftwright.services.belongings import GolferKind
from loftwright.services.shop_names import member
from loftwright.services.shop_told import (
    brought_by_golfers,
    heads_told,
    models_known,
    shaft_known,
    shafts_told,
    slopes_of,
    whom_of,
)
from loftwright.services.studio import Studio
from loftwright.shop.columns import FEATURES
from racks import a_measured_rack
from studios import studio_in_memory
from told_samples import HERON, Told, a_learned

SAMPLE = "heron-60-1-a"


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    a_measured_rack(made)
    return made


def test_as_swung_adds_what_the_swing_does_through_the_slopes(studio: Studio) -> None:
    learned = a_learned(faster=1.5)
    known = shaft_known(learned, studio.store.rack(), SAMPLE)
    through = 1.5 * slopes_of(learned)[FEATURES.index("head_speed")]
    assert known.figures["head_speed"].mean == pytest.approx(1.5 * MILE_PER_HOUR)
    for name, unit, place in (
        ("ball_speed", MILE_PER_HOUR, 0),
        ("spin", 200.0 * REVOLUTION_PER_MINUTE, 2),
    ):
        apart = known.figures[name].mean - known.same[name].mean
        assert apart == pytest.approx(through[place] * unit)
    assert through[0] > 1.0


def test_doubt_about_the_swing_widens_what_is_swung_alone(studio: Studio) -> None:
    learned = a_learned()
    sure = shaft_known(learned, studio.store.rack(), SAMPLE)
    doubt = replace(
        learned.swing_effects,
        covariance=learned.swing_effects.covariance + 0.01 * np.eye(6)[None, :, None, :],
    )
    unsure = shaft_known(replace(learned, swing_effects=doubt), studio.store.rack(), SAMPLE)
    assert unsure.figures["ball_speed"].sd > sure.figures["ball_speed"].sd
    assert unsure.same["ball_speed"].sd == sure.same["ball_speed"].sd


def test_how_much_heads_and_golfers_differ_says_nothing_of_a_shaft(studio: Studio) -> None:
    """The sample's range holds the doubts of its family, generation, model and itself alone."""
    known = shaft_known(a_learned(), studio.store.rack(), SAMPLE)
    told = [HERON[one][1] for one in HERON if one[1] in SAMPLE or one[1].endswith("generation 1")]
    told.append(HERON["family", "Heron"][1])
    expected = 200.0 * REVOLUTION_PER_MINUTE * np.sqrt(np.sum(np.square(told)))
    assert known.same["spin"].sd == pytest.approx(expected)


def test_a_kind_of_golfers_that_never_hit_it_adds_nothing(studio: Studio) -> None:
    fast: Told = {**HERON, ("speed", "heron-60-1 | fast"): ((0.0, 0.0, 0.5, 0.0, 0.0), 0.1, 6)}
    learned, rack = a_learned(fast), studio.store.rack()
    kind = GolferKind(speed="fast", loading="quick")
    assert whom_of(learned, rack, SAMPLE, kind) == GolferKind(speed="fast")
    alike = shaft_known(learned, rack, SAMPLE, kind)
    anybody = shaft_known(learned, rack, SAMPLE, GolferKind(speed="slow"))
    apart = alike.same["spin"].mean - anybody.same["spin"].mean
    assert apart == pytest.approx(0.5 * 200.0 * REVOLUTION_PER_MINUTE)
    assert member(rack, "speed", "heron-60-1 | fast") == (
        "Heron 60 firm (generation 1), fast golfers"
    )


def test_shafts_that_golfers_brought_stay_out_of_the_shop_s_table(studio: Studio) -> None:
    rack = studio.store.rack()
    own = Assembly(
        id="own", head="harrow-1", shaft="heron-70-1-a", length=45.0 * INCH, owner="golfer"
    )
    studio.store.put(own, version=None)
    told: Told = {**HERON, ("piece", "heron-70-1-a"): ((0.0,) * 5, 0.1, 3)}
    names = {one.known.name for one in shafts_told(a_learned(told), rack)}
    assert "Heron 70 firm (generation 1), A" in names
    rack = studio.store.rack()
    assert "heron-70-1-a" in brought_by_golfers(rack)
    assert "heron-70-1" not in brought_by_golfers(rack)
    names = {one.known.name for one in shafts_told(a_learned(told), rack)}
    assert "Heron 70 firm (generation 1), A" not in names
    assert "Heron 70 firm (generation 1)" in names


def test_what_left_the_rack_stands_under_its_id_behind_the_families(studio: Studio) -> None:
    told: Told = {**HERON, ("model", "gone"): ((0.0,) * 5, 0.1, 3)}
    rack = studio.store.rack()
    lines = shafts_told(a_learned(told), rack)
    assert (lines[-1].known.name, lines[-1].depth) == ("gone", 0)
    assert "gone" in {one.name for one in models_known(a_learned(told), rack)}


def test_heads_are_told_from_the_same_swing(studio: Studio) -> None:
    told: Told = {**HERON, ("head", "harrow"): ((0.5, 0.0, 0.0, 0.0, 0.0), 0.2, 60)}
    (head,) = heads_told(a_learned(told), studio.store.rack())
    assert (head.known.name, head.known.fittings) == ("Harrow 460", 60)
    assert head.known.same["ball_speed"].mean == pytest.approx(0.5 * MILE_PER_HOUR)
