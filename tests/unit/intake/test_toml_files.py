"""Home and head files."""

import re
from pathlib import Path

import numpy as np
import pytest

from fuzz_seeds import HEAD
from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, YARD
from loftwright.domain.home import Home, Lie, Trouble, Turf
from loftwright.errors import InputError, IntakeError, LoftwrightError
from loftwright.intake.toml_files import read_head, read_home

HOME = """
name = "Windy Hill"
altitude_ft = 500
temperature_f = 60
humidity_percent = 70
turf = "firm"
wind_along_mph = -5
wind_across_mph = 3.5
re_aim = false

[[holes]]
length_yd = 400
fairway_yd = 30
trouble = "left"
trouble_from_yd = 25
trouble_lie = "sand"

[[holes]]
"""


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "file.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_home_is_read_in_trade_units(tmp_path: Path) -> None:
    home = read_home(written(tmp_path, HOME))
    assert home.name == "Windy Hill"
    assert home.altitude == pytest.approx(500 * FOOT)
    assert home.temperature == pytest.approx(288.7055555555555)
    assert home.humidity == pytest.approx(0.7)
    assert home.turf is Turf.FIRM
    assert home.wind_along == pytest.approx(-5 * MILE_PER_HOUR)
    assert home.wind_across == pytest.approx(3.5 * MILE_PER_HOUR)
    assert not home.re_aim
    first, second = home.holes
    assert (first.trouble, first.trouble_lie) == (Trouble.LEFT, Lie.SAND)
    assert first.trouble_from == pytest.approx(25 * YARD)
    assert second.length == pytest.approx(430 * YARD)


def test_an_empty_home_file_is_the_standard_home(tmp_path: Path) -> None:
    home = read_home(written(tmp_path, ""))
    standard = Home()
    assert home.temperature == pytest.approx(standard.temperature, rel=1e-12)
    assert (home.altitude, home.humidity, home.holes) == (0.0, 0.5, ())


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("altitud_ft = 3", "'altitude_ft'"),
        ("winds_along_mph = 3", "'wind_along_mph'"),
        ("[[holes]]\nlenght_yd = 400", "'length_yd'"),
        ("[[hole]]\nlength_yd = 400", "'holes'"),
        ('altitude_ft = "high"', "altitude_ft"),
        ("altitude_ft = true", "not a number"),
        ("altitude_ft = nan", "not a finite number"),
        ("altitude_ft = inf", "not a finite number"),
        ('turf = "lava"', "normal, firm, soft"),
        ("turf = 3", "not a text"),
        ("re_aim = 1", "true or false"),
        ("holes = 3", "list"),
        ("holes = [3]", "table of keys"),
        ("temperature_f = 250", "temperature"),
        ("humidity_percent = 200", "humidity"),
        ("[[holes]]\nlength_yd = 4000", "hole 1"),
        ("name", "TOML"),
        ("a = 1\na = 2", "TOML"),
    ],
)
def test_what_a_home_cannot_be_is_named(tmp_path: Path, text: str, says: str) -> None:
    path = written(tmp_path, text)
    with pytest.raises(LoftwrightError) as caught:
        read_home(path)
    assert says in str(caught.value)
    assert str(caught.value).count(str(path)) == 1


HOME_NUMBERS = (
    *("altitude_ft", "temperature_f", "humidity_percent", "wind_along_mph", "wind_across_mph"),
    *("length_yd", "fairway_yd", "trouble_from_yd"),
)
HEAD_NUMBERS = ("mass_g", "bulge_mm", "roll_mm", "loft_deg", "lie_deg", "face_deg", "restitution")


@pytest.mark.parametrize("value", ['"3"', "true", "nan", "[3]", "1979-05-27", "-inf"])
@pytest.mark.parametrize("key", HOME_NUMBERS)
def test_every_number_of_a_home_is_a_finite_number(tmp_path: Path, key: str, value: str) -> None:
    table = "[[holes]]\n" if key.endswith("_yd") else ""
    with pytest.raises(InputError) as caught:
        read_home(written(tmp_path, f"{table}{key} = {value}"))
    assert key in caught.value.place
    assert "number" in caught.value.message


@pytest.mark.parametrize("value", ['"3"', "true", "nan", "[3]"])
@pytest.mark.parametrize("key", HEAD_NUMBERS)
def test_every_number_of_a_head_is_a_number(tmp_path: Path, key: str, value: str) -> None:
    text = re.sub(rf"(?m)^{key} = .*$", f"{key} = {value}", HEAD)
    with pytest.raises(InputError) as caught:
        read_head(written(tmp_path, text))
    assert key in caught.value.place
    assert "number" in caught.value.message


@pytest.mark.parametrize(
    "key", ["name", "mass_g", "cg_mm", "inertia_gcm2", "bulge_mm", "roll_mm", "loft_deg"]
)
def test_a_head_needs_every_key_but_face_and_source(tmp_path: Path, key: str) -> None:
    with pytest.raises(InputError) as caught:
        read_head(written(tmp_path, re.sub(rf"(?m)^{key} = .*$", "", HEAD)))
    assert key in caught.value.place
    assert "nothing" in caught.value.message
    short = re.sub(r"(?m)^(face_deg|source) = .*$", "", HEAD)
    assert read_head(written(tmp_path, short)).face_angle == 0.0


@pytest.mark.parametrize(
    ("key", "near"),
    [
        *(("turff", "turf"), ("re_aims", "re_aim"), ("wind_across", "wind_across_mph")),
        *(("humidity", "humidity_percent"), ("temperature_c", "temperature_f")),
        *(("hole", "holes"), ("names", "name"), ("altitude_m", "altitude_ft")),
    ],
)
def test_an_unknown_key_of_a_home_names_the_nearest(tmp_path: Path, key: str, near: str) -> None:
    with pytest.raises(InputError, match=f"nearest known key is '{near}'"):
        read_home(written(tmp_path, f"{key} = 3"))


@pytest.mark.parametrize(
    ("key", "value"),
    [("trouble", '"lake"'), ("trouble_lie", '"sea"'), ("trouble", "1"), ("length_yd", "-3")],
)
def test_a_hole_that_cannot_be_is_named_by_its_number(
    tmp_path: Path, key: str, value: str
) -> None:
    with pytest.raises(InputError) as caught:
        read_home(written(tmp_path, f"[[holes]]\n[[holes]]\n{key} = {value}"))
    assert "hole 2" in caught.value.place
    assert key.split("_", maxsplit=1)[0] in str(caught.value)


def test_more_holes_than_a_course_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="36"):
        read_home(written(tmp_path, "[[holes]]\n" * 37))


def test_a_head_is_read_in_trade_units(tmp_path: Path) -> None:
    head = read_head(written(tmp_path, HEAD))
    assert head.mass == pytest.approx(0.204)
    assert head.cg == pytest.approx(np.array([-0.038, 0.002, 0.0]))
    assert np.diag(head.inertia) == pytest.approx(np.array([3.0e-4, 5.0e-4, 3.5e-4]))
    assert head.roll == float("inf")
    assert head.face_angle == pytest.approx(DEGREE)
    assert head.source == "invented"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("mass_g = 204", "mas_g = 204", "'mass_g'"),
        ("mass_g = 204", "", "mass_g"),
        ("mass_g = 204", "mass_g = 2040", "mass"),
        ("[-38, 2, 0]", "[-38, 2]", "row of 3"),
        ("[-38, 2, 0]", '[-38, 2, "a"]', "row of 3"),
        ("[-38, 2, 0]", "[-38, 2, nan]", "finite"),
        ("[[3000, 0, 0], ", "[", "3 rows"),
        ("[3000, 0, 0]", "[3000, 9, 0]", "symmetric"),
        ("bulge_mm = 305", "bulge_mm = nan", "finite"),
        ("bulge_mm = 305", "bulge_mm = 1", "bulge"),
        ("restitution = 0.83", "restitution = 83", "restitution"),
    ],
)
def test_what_a_head_cannot_be_is_named(tmp_path: Path, old: str, new: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read_head(written(tmp_path, HEAD.replace(old, new)))
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("holes = " + "[" * 30 + "]" * 30, "nested too deeply"),
        ("altitude_ft = " + "9" * 5000, "more than 64 bits"),
        (f"altitude_ft = {1 << 63}", "more than 64 bits"),
        ("name = 1\n" + "a." * 2000 + "b = 1", "more than a hundred points in line 2"),
    ],
)
def test_what_no_message_could_show_is_refused_before_it_is_read(
    content: str, says: str, tmp_path: Path
) -> None:
    with pytest.raises(IntakeError, match=says) as told:
        read_home(written(tmp_path, content))
    assert told.value.mend


def test_files_that_cannot_be_read_are_named(tmp_path: Path) -> None:
    with pytest.raises(IntakeError, match="no such file"):
        read_home(tmp_path / "none.toml")
    with pytest.raises(IntakeError, match="folder"):
        read_head(tmp_path)
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * (1 << 20) + b"\n")
    with pytest.raises(IntakeError, match="larger"):
        read_home(large)
    large.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(IntakeError, match="TOML"):
        read_home(large)
    large.write_text("a = " + "[" * 20_000)
    with pytest.raises(IntakeError, match="TOML"):
        read_home(large)
