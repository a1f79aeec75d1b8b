"""`loftwright shaft`: a table of readings to a shaft, and every refusal with its row."""

from pathlib import Path

import pytest

from commands import Cli
from loftwright.physics.bench import fit

TABLE = """\
kind,station_mm,span_mm,load_n,deflection_mm,clamp_mm,tip_mass_g,frequency_cpm,mass_g
three_point,150,300,50,0.369
three_point,230,300,50,0.391
three_point,310,300,50,0.410
three_point,390,300,50,0.433
three_point,470,300,50,0.455
three_point,550,300,50,0.508
three_point,630,300,50,0.564
three_point,710,300,50,0.662
three_point,790,300,50,0.775
three_point,870,300,50,0.915
three_point,950,300,50,1.058
frequency,,,,,127,205,258.4
tip_clamped,988,,10,0.53,30
mass,,,,,,,,62.0
"""


@pytest.fixture
def readings(tmp_path: Path) -> Path:
    path = tmp_path / "readings.csv"
    path.write_text(TABLE, encoding="utf-8")
    return path


def test_a_shaft_in_words_and_in_keys(cli: Cli, readings: Path) -> None:
    outcome = cli("shaft", readings, "--length", 1168)
    assert outcome.code == 0
    assert outcome.out.startswith("EI is read from 75 to 1")
    assert all(len(line) <= 80 for line in outcome.out.splitlines())
    record = cli("shaft", readings, "--length", "1168 mm", "--json").record
    assert record["length_mm"] == 1168.0
    assert record["mass_g"] == pytest.approx(62.0, abs=0.1)
    assert record["doubts"] == []
    assert record["without_doubted"] is None


def test_a_swapped_digit_is_named_with_its_row(cli: Cli, readings: Path) -> None:
    readings.write_text(TABLE.replace("0.455", "0.545"), encoding="utf-8")
    outcome = cli("shaft", readings, "--length", 1168)
    assert outcome.code == 0
    assert "Row 6 looks wrong." in outcome.out
    assert "swapped (0.455 mm)?" in " ".join(outcome.out.split())


def test_grip_and_sleeve_are_taken_off_the_weight(cli: Cli, readings: Path) -> None:
    readings.write_text(TABLE.replace(",62.0", ",118.0"), encoding="utf-8")
    dressed = cli(
        *("shaft", readings, "--length", 1168, "--grip-mass", 50, "--grip-length", 270),
        *("--sleeve-mass", 6, "--sleeve-length", 25, "--sleeve-balance", 12, "--json"),
    )
    assert dressed.record["mass_g"] == pytest.approx(62.0, abs=0.5)


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("three_point,150,300", "three_point,150,", "row 2"),
        ("three_point,950", "three_point,1090", "row 12, span"),
        ("127,205", "127,205000", "row 13"),
    ],
)
def test_a_row_that_cannot_be_is_named(
    cli: Cli, readings: Path, old: str, new: str, place: str
) -> None:
    readings.write_text(TABLE.replace(old, new), encoding="utf-8")
    outcome = cli("shaft", readings, "--length", 1168, "--json")
    assert outcome.code == 4
    assert place in outcome.error["place"]


def test_a_length_no_shaft_has_and_a_lost_file_are_told(cli: Cli, readings: Path) -> None:
    assert cli("shaft", readings, "--length", "45 m").code == 3
    assert cli("shaft", readings.with_name("lost.csv"), "--length", 1168).code == 4
    assert cli("shaft", readings).code == 2


def test_readings_that_do_not_settle_end_as_no_solution(
    cli: Cli, readings: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fit, "MOST_STEPS", 1)
    outcome = cli("shaft", readings, "--length", 1168, "--json")
    assert outcome.code == 7
    assert "rows 2 to 15" in outcome.error["message"]
