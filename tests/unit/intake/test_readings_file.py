"""Tables of bench readings: units in the headings, whole set-ups, refusals that name the row."""

from pathlib import Path

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, FOOT_POUND, GRAM, INCH, MILLIMETRE
from loftwright.errors import IntakeError
from loftwright.intake.readings_file import read_readings
from loftwright.physics.bench.readings import Cantilever, Frequency, Mass, ThreePoint, Torque
from loftwright.physics.shaft.mount import BARE, Dressing, End

TABLE = """\
kind,station_mm,span_mm,load_n,deflection_mm,clamp_mm,tip_mass_g,frequency_cpm,moment_nm,twist_deg,mass_g,balance_mm,diameter_mm,sigma_percent
three_point,150,300,50,0.369,,,,,,,,,
cantilever,900,,10,21.5,127,,,,,,,,2
tip-clamped,988,,10,0.53,30,,,,,,,,
tip_clamped,,,,,127,205,301.2,,,,,,
frequency,,,,,127,205,258.4,,,,,,

torque,1143,,,,127,,,1.356,4.16,,,,
mass,,,,,,,,,,62.0,,,
balance,,,,,,,,,,,577,,
diameter,100,,,,,,,,,,,15.24,
"""


def written(path: Path, text: str) -> Path:
    file = path / "readings.csv"
    file.write_text(text, encoding="utf-8")
    return file


def test_every_kind_is_read_with_its_set_up(tmp_path: Path) -> None:
    found = read_readings(written(tmp_path, TABLE), BARE)
    assert [row.line for row in found.rows] == [2, 3, 4, 5, 6, 8, 9, 10]
    three, butt, tip, tip_swing, swing, torque, mass, _ = (row.reading for row in found.rows)
    assert three == ThreePoint(
        station=150 * MILLIMETRE,
        span=300 * MILLIMETRE,
        force=50.0,
        value=0.369 * MILLIMETRE,
        typed="0.369",
    )
    assert isinstance(butt, Cantilever)
    assert butt.mount.held is End.BUTT
    assert butt.sigma == pytest.approx(0.02)
    assert butt.force_at == butt.read_at == pytest.approx(0.9)
    assert isinstance(tip, Cantilever)
    assert tip.mount.held is End.TIP
    assert isinstance(tip_swing, Frequency)
    assert tip_swing.mount.held is End.TIP
    assert isinstance(swing, Frequency)
    assert swing.value == pytest.approx(258.4 * CYCLE_PER_MINUTE)
    assert swing.weight.mass == pytest.approx(205 * GRAM)
    assert isinstance(torque, Torque)
    assert torque.value == pytest.approx(4.16 * DEGREE)
    assert mass == Mass(value=62.0 * GRAM, typed="62.0")
    assert found.diameters[0].value == pytest.approx(15.24 * MILLIMETRE)


def test_other_units_stand_in_the_headings(tmp_path: Path) -> None:
    text = (
        "kind;station_inch;span_in;load_lbf;deflection_inch;clamp_inch;moment_ftlb;twist_deg\n"
        "three_point;5,9;12;11;0,0145;;;\n"
        "torque;45;;;;5;1;4,2\n"
    )
    found = read_readings(written(tmp_path, text), BARE)
    three, torque = (row.reading for row in found.rows)
    assert isinstance(three, ThreePoint)
    assert three.station == pytest.approx(5.9 * INCH)
    assert three.force == pytest.approx(48.93, abs=0.01)
    assert three.typed == "0,0145"
    assert isinstance(torque, Torque)
    assert torque.moment == pytest.approx(FOOT_POUND)


def test_what_is_on_the_shaft_goes_with_every_reading(tmp_path: Path) -> None:
    grip = Dressing(grip_mass=0.05, grip_length=0.27)
    for row in read_readings(written(tmp_path, TABLE), grip).rows:
        if isinstance(row.reading, Cantilever | Frequency):
            assert row.reading.mount.dressing == grip
        if isinstance(row.reading, Mass):
            assert row.reading.dressing == grip


HEAD = "kind,station_mm,span_mm,load_n,deflection_mm,mass_g\n"
REFUSED = {
    "a blank set-up": (
        HEAD + "three_point,150,300,50,0.37,\nthree_point,190,,50,0.38,\n",
        "row 3: a three_point reading without span",
        "never the one above",
    ),
    "a cell of another kind": (
        HEAD + "mass,150,,,,62\n",
        "row 2: a mass reading has no station",
        "blank",
    ),
    "an unknown kind": (
        HEAD + "threepoint,150,300,50,0.37,\n",
        "no kind of reading",
        "three_point",
    ),
    "no kind": (HEAD + ",150,300,50,0.37,\n", "row 2: has no kind", "tip_clamped"),
    "no number": (
        HEAD + "three_point,150,300,50,o.37,\n",
        "row 2, deflection: 'o.37' is no number",
        "0.541",
    ),
    "a slip of units": (
        HEAD + "three_point,150,300,50,37,\n",
        "row 2, three-point deflection: three-point deflection of 37 mm is outside",
        "inches or m instead of mm",
    ),
    "an unknown heading": ("kind,deflexion_mm\n", "heading 'deflexion_mm'", "deflection_mm"),
    "a heading without unit": ("kind,mass\n", "heading 'mass'", "unit"),
    "a wrong unit": ("kind,mass_mm\n", "a unit of length, not of mass", "g, kg"),
    "a heading twice": ("kind,mass_g,mass_oz\n", "mass stands twice", "Keep one"),
    "a cell without heading": ("kind,mass_g,\nmass,62,7\n", "'7' stands under no heading", "kind"),
    "no reading": ("kind,mass_g\n", "holds no reading", "one row a reading"),
    "only diameters": (
        "kind,station_mm,diameter_mm\ndiameter,100,15.2\n",
        "holds no reading that weighs or bends",
        "one row a reading",
    ),
    "another table": ("ball,club\n1,Ash\n", "holds no table of readings", "a column kind"),
    "too many rows": (HEAD + "mass,,,,,62\n" * 401, "more than 400", "one shaft"),
    "an error of nothing": (
        "kind,mass_g,sigma_percent\nmass,62,0\n",
        "an error of 0 %",
        "more than nothing",
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_a_table_that_says_nothing_is_refused_where_it_stands(what: str, tmp_path: Path) -> None:
    text, said, mend = REFUSED[what]
    with pytest.raises(IntakeError) as caught:
        read_readings(written(tmp_path, text), BARE)
    assert said in f"{caught.value.place}: {caught.value.message}"
    assert mend in caught.value.mend
