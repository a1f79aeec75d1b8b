"""Files of builds and of what was measured: every key, and every refusal with its place."""

import re
from pathlib import Path

import pytest

from builds import BUILD_TABLES, BUILD_TOML, DRIVER, club_at
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.built import Checked
from loftwright.domain.limits import USUAL_EDITION, Kind, Measured
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import InputError, IntakeError
from loftwright.intake.build_files import read_build
from loftwright.intake.build_keys import ERROR_KEYS, KEYS, TOLERANCE_KEYS
from loftwright.intake.measured_file import CHECKED_KEYS, LIMIT_KEYS, read_measured
from loftwright.physics.build.uncertainty import PartErrors


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "build.toml"


def written(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def test_a_build_file_gives_the_parts_it_lists(path: Path) -> None:
    sheet = read_build(written(path, BUILD_TOML))
    assert sheet.parts.small == DRIVER.small
    assert sheet.parts.grip == DRIVER.grip
    assert sheet.parts.head == DRIVER.head
    assert sheet.parts.tape == DRIVER.tape
    assert sheet.target.length == pytest.approx(45.0 * INCH)
    assert sheet.target.swingweight == 33.0
    assert sheet.kind is Kind.WOOD
    assert sheet.rules.edition == USUAL_EDITION
    assert not sheet.rules.local_length


def test_every_table_and_key_is_taken(path: Path) -> None:
    text = BUILD_TOML.replace(
        "mass_g = 325",
        "mass_g = 325\nloft_deg = 10.5\nfrequency_cpm = 250\nclamp_mm = 127\ntip_mass_g = 205",
    ).replace("mass_g = 195", 'mass_g = 195\nkind = "iron"\nmax_added_g = 8')
    sheet = read_build(written(path, text + BUILD_TABLES))
    assert sheet.build_up is not None
    assert sheet.build_up.under == pytest.approx(0.62 * INCH)
    assert sheet.parts.butt_weight.most == pytest.approx(12.0 * GRAM)
    assert sheet.parts.head.most_added == pytest.approx(8.0 * GRAM)
    assert sheet.target.scale.calibrated
    assert sheet.tolerances == Tolerances(swingweight=1.0)
    assert sheet.errors == PartErrors(reach=0.05 * INCH)
    assert sheet.also == {
        Checked.LOFT: pytest.approx(10.5 * DEGREE),
        Checked.FREQUENCY: pytest.approx(250.0 * CYCLE_PER_MINUTE),
    }
    assert sheet.clamp == pytest.approx(0.127)
    assert sheet.tip_mass == pytest.approx(0.205)
    assert sheet.kind is Kind.IRON
    assert sheet.rules.edition == "an invented edition"
    assert sheet.rules.local_length


def test_a_dry_fit_finds_the_heads_depth_and_is_surer_of_it(path: Path) -> None:
    club = club_at(45.5 * INCH)
    fit = f"""
[dry_fit]
mass_g = {club.mass / GRAM!r}
balance_inch = {club.balance / INCH!r}
cut_length_inch = 43.625
"""
    text = BUILD_TOML.replace("cg_along_inch = 0.6\n", "") + fit
    sheet = read_build(written(path, text))
    assert sheet.parts.head.reach == pytest.approx(0.6 * INCH)
    assert sheet.errors.reach < PartErrors().reach
    with pytest.raises(InputError, match="given twice"):
        read_build(written(path, BUILD_TOML + fit))
    with pytest.raises(InputError, match="a list of grip, tape, adapter"):
        read_build(written(path, text + 'without = ["gripp"]\n'))
    with pytest.raises(InputError, match="dry fit weighs"):
        read_build(written(path, text + 'without = ["grip"]\n'))


@pytest.mark.parametrize(
    ("gone", "place", "said"),
    [
        ("mass_g = 62\n", "shaft, mass_g", "the mass of the shaft is missing"),
        ("mass_g = 195\n", "head, mass_g", "the mass of the head is missing"),
        ("mass_g = 50\n", "grip, mass_g", "the mass of the grip is missing"),
        ("mass_g = 6\n", "part 1, mass_g", "the mass of the adapter is missing"),
        ("cap_inch = 0.125\n", "grip, cap_inch", "cap is missing"),
        ("cg_along_inch = 0.6\n", "head, cg_along_inch", "balance point along the shaft"),
        ("balance_from_tip_inch = 23.5\n", "shaft, balance_from_tip_inch", "is missing"),
        ("length_inch = 45\n", "target, length_inch", "the length of the club is missing"),
        (
            'swingweight = "D3"\nmass_g = 325\n',
            "target, swingweight, mass, inertia",
            "0 targets besides",
        ),
    ],
)
def test_what_was_not_measured_is_never_guessed(
    path: Path, gone: str, place: str, said: str
) -> None:
    with pytest.raises(InputError, match=said) as caught:
        read_build(written(path, BUILD_TOML.replace(gone, "", 1)))
    assert caught.value.place == f"{path}, {place}"
    assert caught.value.mend


@pytest.mark.parametrize("table", ["target", "shaft", "head", "grip"])
def test_a_table_that_is_needed_is_asked_for(path: Path, table: str) -> None:
    text = re.sub(rf"\[{table}\]\n.*?\n\n", "", BUILD_TOML, flags=re.DOTALL)
    with pytest.raises(InputError, match=rf"\[{table}\] is missing"):
        read_build(written(path, text))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("mass_g = 62", "mas_g = 62", "'mas_g' is not known"),
        ("[tape]", "[tapes]", "'tapes' is not known"),
        ('swingweight = "D3"', "swingweight = 3", "is not a text"),
        ('swingweight = "D3"', 'swingweight = "H3"', "no swingweight"),
        ("mass_g = 195", "mass_g = 6.9", "outside 250.0 to 700.0 g"),
        ("mass_g = 195", "mass_g = 1950", "ounces or kilograms"),
        ("mass_g = 195", 'mass_g = "195"', "is not a number"),
        ("mass_g = 195", 'mass_g = 195\nkind = "wedge"', "is not one of wood, iron, putter"),
        ("balance_from_tip_inch = 23.5", "balance_from_tip_inch = 33.5", "does not balance"),
        ("mass_g = 325", "mass_g = 325\nclub_moi_kgcm2 = 2850", "3 targets besides the length"),
        ("mass_g = 325", "mass_g = 325\nfrequency_cpm = 250", "clamp and weight"),
        ("[tape]", "[build_up]\nbutt_inch = 0.6\n[tape]", "core of the grip is missing"),
        ('name = "screw"', 'name = "adapter"', "two parts are called 'adapter'"),
        ("[tape]\nmass_g = 1.5\nlength_inch = 10", "tape = 3", "is not a table of keys"),
    ],
)
def test_a_key_or_value_that_cannot_be_is_named_with_its_place(
    path: Path, old: str, new: str, said: str
) -> None:
    from loftwright.services.build import solve_file  # noqa: PLC0415 - the club's own limits

    text = BUILD_TOML.replace(old, new, 1)
    if new == "tape = 3":
        text = "tape = 3\n" + BUILD_TOML.replace(old, "", 1)
    with pytest.raises(InputError, match=said):
        solve_file(written(path, text))


def test_the_nearest_key_is_proposed(path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_build(written(path, BUILD_TOML.replace("cap_inch", "cap_in")))
    assert "'cap_inch'" in caught.value.mend


def test_parts_that_are_no_list_are_refused(path: Path) -> None:
    text = BUILD_TOML.split("[[parts]]", maxsplit=1)[0]
    with pytest.raises(InputError, match="at most 20"):
        read_build(written(path, "parts = 3\n" + text))
    with pytest.raises(InputError, match="table of keys"):
        read_build(written(path, "parts = [3]\n" + text))


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(IntakeError):
        read_build(tmp_path / "none.toml")
    with pytest.raises(IntakeError):
        read_measured(tmp_path / "none.toml")


def test_every_table_key_has_a_field() -> None:
    assert {field for field, _ in TOLERANCE_KEYS.values()} == set(Tolerances.__dataclass_fields__)
    assert {field for field, _ in ERROR_KEYS.values()} == set(PartErrors.__dataclass_fields__)
    assert {"tolerance", "u95"} == set(KEYS[""]) - set(KEYS)


MEASURED_TOML = """\
[length_inch]
value = 45.02
u95 = 0.03

[swingweight]
value = "D3.1"
u95 = 0.3

[frequency_cpm]
value = 250
u95 = 1
clamp_mm = 127
tip_mass_g = 205

[volume_cm3]
value = 455
u95 = 8

[pendulum]
pivot_inch = 2
period_s = 2.03
period_u95_s = 0.005
"""


def test_what_was_measured_is_read_with_its_doubt(path: Path) -> None:
    found = read_measured(written(path, MEASURED_TOML))
    length = found.checked[Checked.LENGTH]
    assert (length.value, length.half_width) == pytest.approx((45.02 * INCH, 0.03 * INCH))
    assert found.checked[Checked.SWINGWEIGHT].value == pytest.approx(33.1)
    assert found.limited[Measured.LENGTH] == length
    assert found.method is LengthMethod.PLANE
    assert found.clamp == pytest.approx(0.127)
    assert found.tip_mass == pytest.approx(0.205)
    assert found.pendulum is not None
    assert found.pendulum.period.value == 2.03
    assert (found.edition, found.local_length) == (None, None)


def test_a_length_by_ruler_is_held_against_no_limit(path: Path) -> None:
    text = MEASURED_TOML.replace("u95 = 0.03", 'u95 = 0.03\nmethod = "ruler"')
    found = read_measured(written(path, text))
    assert Checked.LENGTH in found.checked
    assert Measured.LENGTH not in found.limited


def test_a_swingweight_may_be_given_in_points(path: Path) -> None:
    found = read_measured(written(path, MEASURED_TOML.replace('"D3.1"', "33.1")))
    assert found.checked[Checked.SWINGWEIGHT].value == 33.1


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("u95 = 0.03\n", "", "doubt of this reading is missing"),
        ("u95 = 0.03", "u95 = 0", "without a doubt"),
        ("value = 45.02\n", "", "is not a number"),
        ("clamp_mm = 127\n", "", "clamp and weight"),
        ("[volume_cm3]", "[volume]", "'volume' is not known"),
        ("period_u95_s = 0.005\n", "", "is not a number"),
        ('"D3.1"', '"Z3"', "no swingweight"),
        ("u95 = 0.03", 'u95 = 0.03\nmethod = "tape"', "is not one of 60 degrees, ruler"),
    ],
)
def test_a_reading_that_cannot_be_is_named(path: Path, old: str, new: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        read_measured(written(path, MEASURED_TOML.replace(old, new, 1)))
    assert str(path) in caught.value.place


def test_rules_may_stand_with_the_readings(path: Path) -> None:
    text = MEASURED_TOML + '\n[rules]\nedition = "an invented edition"\n'
    found = read_measured(written(path, text))
    assert (found.edition, found.local_length) == ("an invented edition", None)


def test_every_quantity_that_can_be_checked_has_a_key_of_its_unit() -> None:
    assert [checked for checked, _ in CHECKED_KEYS.values()] == list(Checked)
    assert [measured for measured, _ in LIMIT_KEYS.values()] == list(Measured)
    assert CHECKED_KEYS["club_moi_kgcm2"][1] == KILOGRAM_SQUARE_CENTIMETRE
