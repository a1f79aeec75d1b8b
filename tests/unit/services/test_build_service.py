"""Builds solved from files, scales from a calibration club, sleeves turned."""

from math import degrees, radians
from pathlib import Path

import pytest

from builds import BUILD_TOML
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.build_sheet import Mind
from loftwright.domain.built import Checked
from loftwright.errors import InputError, UsageError
from loftwright.services.build import (
    BenchSetUp,
    Bore,
    scale_of,
    solve_file,
    turn_sleeve,
    weigh_swing,
)


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "build.toml"
    path.write_text(BUILD_TOML, encoding="utf-8")
    return path


def test_tolerances_that_the_parts_cannot_promise_are_named(sheet: Path) -> None:
    solved = solve_file(sheet)
    assert solved.tight == (Checked.SWINGWEIGHT,)
    assert solved.minds == {Mind.UNCALIBRATED, Mind.TIGHT}
    wide = BUILD_TOML + "\n[tolerance]\nswingweight = 1.5\n"
    sheet.write_text(wide, encoding="utf-8")
    assert solve_file(sheet).minds == {Mind.UNCALIBRATED}


def test_a_calibration_club_makes_the_scale_the_shops_own(sheet: Path) -> None:
    own = '\n[calibration]\nmass_g = 310\nbalance_inch = 33.25\nreads = "C9.3"\n'
    usual = solve_file(sheet)
    sheet.write_text(BUILD_TOML + own, encoding="utf-8")
    solved = solve_file(sheet)
    assert Mind.UNCALIBRATED not in solved.minds
    less = (usual.answer.head_added or 0.0) - (solved.answer.head_added or 0.0)
    # The shop's scale reads a point more, so that its D3 is a lighter head than the usual D3.
    assert less / GRAM == pytest.approx(1.16, abs=0.05)


def test_a_scale_is_the_usual_one_or_wholly_ones_own() -> None:
    assert not scale_of(None, None, None).calibrated
    assert scale_of(310.0 * GRAM, 33.25 * INCH, "C9").calibrated
    with pytest.raises(UsageError, match="half a calibration club"):
        scale_of(310.0 * GRAM, None, "C9")


def test_points_come_with_their_doubt() -> None:
    points = weigh_swing(
        315.6 * GRAM, 33.5 * INCH, scale_of(None, None, None), 1.0 * GRAM, 2.0 * MILLIMETRE
    )
    assert points.half_width == pytest.approx(2.0 * 0.3184, abs=1e-4)
    with pytest.raises(InputError, match="balances"):
        weigh_swing(0.3, 0.05, scale_of(None, None, None), 1e-3, 2e-3)


def test_the_design_lie_is_the_shafts_along_the_target_line() -> None:
    for azimuth, lie in ((0.0, 58.0), (90.0, 56.5), (180.0, 58.0), (270.0, 59.5)):
        bore = Bore(angle=radians(1.5), azimuth=radians(azimuth))
        found = turn_sleeve(radians(10.5), radians(58.0), 0.0, bore)
        assert degrees(found.design_lie) == pytest.approx(lie, abs=1e-9)
        assert found.kept.lie == found.soled.lie == found.squared.lie


def test_no_frequency_is_told_for_a_shaft_that_is_too_short(sheet: Path, tmp_path: Path) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text("kind,mass_g\nmass,62\n", encoding="utf-8")
    text = BUILD_TOML.replace("length_inch = 45\n", "length_inch = 48.5\n", 1)
    sheet.write_text(text, encoding="utf-8")
    solved = solve_file(sheet, BenchSetUp(readings=readings, clamp=0.127, tip_mass=0.205))
    assert solved.frequency is None
    assert solved.errors is None
    assert solved.trades
