"""`loftwright shaft bench`: a table of readings to a shaft, and every refusal with its row."""

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
    outcome = cli("shaft", "bench", readings, "--length", 1168)
    assert outcome.code == 0
    assert outcome.out.startswith("EI is read from 75 to 1")
    assert all(len(line) <= 80 for line in outcome.out.splitlines())
    record = cli("shaft", "bench", readings, "--length", "1168 mm", "--json").record
    assert record["length_mm"] == 1168.0
    assert record["mass_g"] == pytest.approx(62.0, abs=0.1)
    assert record["doubts"] == []
    assert record["frequency_cpm"] == pytest.approx(258.4, abs=1.0)
    assert record["frequency_set_up"]["free_length_mm"] == 1041.0
    assert (record["torque_deg"], record["balance_mm"]) == (None, None)
    first, middle = record["stations"][0], record["stations"][20]
    assert first["read"] is False
    assert set(middle) >= {"mm", "ei_nm2", "sd"}
    assert "read" not in middle


def test_a_swapped_digit_is_named_with_its_row(cli: Cli, readings: Path) -> None:
    readings.write_text(TABLE.replace("0.455", "0.545"), encoding="utf-8")
    outcome = cli("shaft", "bench", readings, "--length", 1168)
    assert outcome.code == 0
    assert "Row 6 looks wrong." in outcome.out
    assert "swapped (0.455 mm)?" in " ".join(outcome.out.split())
    doubt = cli("shaft", "bench", readings, "--length", 1168, "--json").record["doubts"][0]
    assert (doubt["row"], doubt["likely"][0]["slip"]) == (6, "swapped digits")
    assert abs(doubt["sigmas"]) > 4.0
    assert doubt["without_it"]["stations"][19]["ei_nm2"] == pytest.approx(58.3, rel=0.1)


def test_grip_and_sleeve_are_taken_off_the_weight(cli: Cli, readings: Path) -> None:
    readings.write_text(TABLE.replace(",62.0", ",118.0"), encoding="utf-8")
    dressed = cli(
        *("shaft", "bench", readings, "--length", 1168, "--grip-mass", 50, "--grip-length", 270),
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
    outcome = cli("shaft", "bench", readings, "--length", 1168, "--json")
    assert outcome.code == 4
    assert place in outcome.error["place"]


def test_a_length_no_shaft_has_and_a_lost_file_are_told(cli: Cli, readings: Path) -> None:
    assert cli("shaft", "bench", readings, "--length", "45 m").code == 3
    assert cli("shaft", "bench", readings.with_name("lost.csv"), "--length", 1168).code == 4
    assert cli("shaft", "bench", readings).code == 2


def test_readings_that_do_not_settle_end_as_no_solution(
    cli: Cli, readings: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fit, "MOST_STEPS", 1)
    outcome = cli("shaft", "bench", readings, "--length", 1168, "--json")
    assert outcome.code == 7
    assert "rows 2 to 15" in outcome.error["message"]


def test_the_old_name_is_gone(cli: Cli, readings: Path) -> None:
    assert cli("shaft", readings, "--length", 1168).code == 2
    assert "bench" in cli("shaft").err


def test_a_length_may_be_left_out_only_where_no_reading_needs_the_tip(
    cli: Cli, readings: Path
) -> None:
    needy = cli("shaft", "bench", readings, "--json")
    assert needy.code == 2
    assert "--length" in needy.error["place"]
    assert "row 13" in needy.error["place"]
    bent = [line for line in TABLE.splitlines() if line.startswith(("kind", "three"))]
    readings.write_text("\n".join(bent), encoding="utf-8")
    outcome = cli("shaft", "bench", readings)
    assert outcome.code == 0
    assert "beyond the last support, 1100 mm" in " ".join(outcome.out.split())
    record = cli("shaft", "bench", readings, "--json").record
    assert (record["length_mm"], record["told_to_mm"]) == (None, 1100.0)
    assert record["stations"][-1]["mm"] == 1100.0
    readings.write_text("\n".join(bent[:4]), encoding="utf-8")
    assert "--length" in cli("shaft", "bench", readings, "--json").error["place"]


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("torque,1143,,,,127,,,,1.356,4.16", 2),
        ("torque,1000,,,,127,,,,1.356,4.16", 0),
        ("cantilever,700,,5,9.0,127,,,", 0),
        ("balance,,,,,,,,,,,577", 2),
        ("diameter,1168,,,,,,,,,,,8.6", 0),
    ],
)
def test_what_needs_the_tip_end(cli: Cli, readings: Path, row: str, code: int) -> None:
    bent = [line for line in TABLE.splitlines() if line.startswith("three")]
    head = f"{TABLE.splitlines()[0]},moment_nm,twist_deg,balance_mm,diameter_mm"
    order = head.split(",")
    cells = dict.fromkeys(order, "")
    kind, *figures = row.split(",")
    asked = {
        "torque": ("station_mm", "clamp_mm", "moment_nm", "twist_deg"),
        "cantilever": ("station_mm", "load_n", "deflection_mm", "clamp_mm"),
        "balance": ("balance_mm",),
        "diameter": ("station_mm", "diameter_mm"),
    }[kind]
    cells |= {"kind": kind, **dict(zip(asked, filter(None, figures), strict=True))}
    last = ",".join(cells[name] for name in order)
    readings.write_text("\n".join([head, *bent, last]), encoding="utf-8")
    outcome = cli("shaft", "bench", readings)
    assert outcome.code == code, outcome.err


def test_the_help_says_what_a_loaded_shaft_can_do(cli: Cli) -> None:
    told = " ".join(cli("shaft", "bench", "--help").out.split())
    assert told.count("wear eye protection") == 1
    assert "creaks or cracks is loaded no more" in told
