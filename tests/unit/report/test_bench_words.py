"""A measured shaft in words: what was read, what was not, what looks wrong, what it would mean."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import (
    LENGTH,
    PLAIN,
    lever,
    noisy,
    retyped,
    swapped_digits,
    swing,
    swings,
    three_points,
    torque,
    weighed,
)
from bench_shafts import FIVE_INCHES
from loftwright.constants import FOOT_POUND, GRAM, GRAVITY, MILLIMETRE
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import Reading, ThreePoint
from loftwright.physics.shaft.beam import TipBody
from loftwright.report.bench_many import rows_named
from loftwright.report.bench_words import shaft_lines
from loftwright.report.shaft_records import shaft_record

TABLE = [*noisy(three_points(PLAIN), np.random.default_rng(1)), *weighed(PLAIN)]


def said(readings: list[Reading]) -> str:
    """Return the words on one line, as wrapping is no matter."""
    return " ".join(" ".join(shaft_lines(measured(readings), rows(readings))).split())


def measured(readings: list[Reading]) -> Measured:
    return measure(LENGTH, readings)


def rows(readings: list[Reading]) -> list[int]:
    return list(range(2, 2 + len(readings)))


def test_the_answer_says_what_was_read_and_the_table_where_nothing_was() -> None:
    lines = shaft_lines(measured(TABLE), rows(TABLE))
    assert lines[0] == "EI is read from 75 to 1025 of 1143 mm; the rest is not read."
    table = [line.split() for line in lines if line.lstrip()[:1].isdigit()]
    assert table[0] == ["0", "not", "read"]
    assert table[-1] == ["1143", "not", "read"]
    value, low, _, high = map(float, [word.replace("to", "0") for word in table[5][1:]])
    assert table[5][0] == "500"
    assert low < value < high
    assert low < 51.0 < high
    assert "Look again" not in said(TABLE)
    assert "24 readings, 0 doubts" in said(TABLE)


def test_gaps_are_told() -> None:
    text = said([*three_points(PLAIN, 3, 0.35), *weighed(PLAIN)])
    assert text.startswith("EI is read from 75 to ")
    assert " and " in text.partition("of 1143 mm")[0]


def test_one_frequency_tells_the_whole_and_no_part() -> None:
    text = said([swing(PLAIN)])
    assert text.startswith("These readings tell the shaft as a whole and no part of its 1143 mm.")
    assert "The shaft was not weighed" in text
    assert "its tip in the clamp" in text


def test_a_doubt_is_told_with_its_slip_and_the_shaft_without_it_beside() -> None:
    bad = list(TABLE)
    bad[9] = retyped(TABLE[9], swapped_digits(TABLE[9].typed))
    text = said(bad)
    assert "Row 11 looks wrong." in text
    assert "without row 11" in text
    assert f"two digits swapped ({TABLE[9].typed} mm)?" in text
    assert "Nothing was left out" in text
    bad[17] = retyped(TABLE[17], f"{2.0 * float(TABLE[17].typed):.3f}")
    assert "Rows 11 and 19 look wrong." in said(bad)


def slips() -> dict[str, tuple[list[Reading], str]]:
    """Return readings of which one has a slip, and what is said of it."""
    three = TABLE[9]
    assert isinstance(three, ThreePoint)
    near = [*TABLE, *swings(PLAIN)[:3], swing(PLAIN, 0.15)]
    deep = replace(swing(PLAIN), mount=replace(FIVE_INCHES, clamp=152.4 * MILLIMETRE))
    heavy = replace(swing(PLAIN), weight=TipBody(mass=250.0 * GRAM))
    twisted = replace(torque(PLAIN), moment=1.0 / FOOT_POUND)
    loaded = replace(lever(PLAIN, 0.25), force=10.0 / 9.80665)
    wide = three_points(PLAIN, 1)[0]
    assert isinstance(wide, ThreePoint)
    read_wide = replace(wide, span=0.25, value=wide.value * (0.25 / 0.3) ** 3)
    wrong_span = replace(three, value=three.value * (0.25 / 0.3) ** 3, typed="")
    turns = [torque(PLAIN, 1.0), torque(PLAIN, 0.9), torque(PLAIN, 0.8)]
    return {
        "clamp": ([*near, deep], "another clamp depth (127."),
        "weight": ([*near, heavy], "another weight on the end (205.0 g)?"),
        "moment": ([*TABLE, *turns, twisted], "another unit (1.000 N m)?"),
        "load": ([*TABLE, lever(PLAIN, 0.15), loaded], "another unit (10.0 N, "),
        "span": ([*TABLE[:9], wrong_span, *TABLE[10:], read_wide], "another span (250.0 mm)?"),
        "station": (
            [*TABLE[:9], replace(three, value=TABLE[15].value, typed=""), *TABLE[10:]],
            "another station (",
        ),
        "unknown": (
            [*TABLE[:9], replace(three, value=3.3 * three.value, typed=""), *TABLE[10:]],
            "no usual slip explains it; read it again",
        ),
    }


@pytest.mark.parametrize(
    "what", ["clamp", "weight", "moment", "load", "span", "station", "unknown"]
)
def test_a_slip_is_told_with_what_was_meant(what: str) -> None:
    readings, words = slips()[what]
    assert words in said(readings)


def test_torsion_stands_in_the_table_once_it_is_read() -> None:
    turns: list[Reading] = [torque(PLAIN, float(at)) for at in np.arange(0.25, 1.12, 0.1)]
    assert "GJ, N m²" in said([*TABLE, *turns])
    assert "GJ, N m²" not in said([*TABLE, turns[-1]])


def test_keys_hold_every_reading_and_every_station() -> None:
    bad = list(TABLE)
    bad[9] = retyped(TABLE[9], swapped_digits(TABLE[9].typed))
    record = shaft_record(measured(bad), rows(bad))
    profile, readings = record["stations"], record["readings"]
    assert isinstance(profile, list)
    assert isinstance(readings, list)
    assert len(profile) == 47
    assert [one["row"] for one in readings] == rows(bad)
    assert readings[9]["read"] == float(bad[9].typed)
    assert abs(readings[9]["surprise"]) > 4.0
    middle = profile[20]
    assert middle["mm"] == 500.0
    assert 0.0 < middle["sd"] < 0.05 * middle["ei_nm2"]
    assert "read" not in middle
    assert profile[-1]["read"] is False
    assert (middle["gj_nm2"], middle["gj_sd"]) == (None, None)
    assert middle["line_density_g_per_m"] == pytest.approx(62.0 / 1.143, abs=0.5)
    doubts = record["doubts"]
    assert isinstance(doubts, list)
    assert set(doubts[0]) == {"row", "likely", "sigmas", "without_it"}
    assert doubts[0]["row"] == 11
    assert abs(doubts[0]["sigmas"]) > 4.0
    assert doubts[0]["likely"][0]["slip"] == "swapped digits"
    assert len(doubts[0]["without_it"]["stations"]) == 47
    assert shaft_record(measured(TABLE), rows(TABLE))["doubts"] == []


def test_keys_without_a_reading_are_null_with_their_reason() -> None:
    bent = three_points(PLAIN)
    record = shaft_record(measured(bent), rows(bent))
    for key in ("frequency_cpm", "torque_deg", "mass_g", "balance_mm"):
        assert (record[key], record[f"{key}_sd"]) == (None, None)
    told = " ".join(record["warnings"])  # type: ignore[arg-type]
    for reason in ("was not weighed: no frequency", "not balanced", "not twisted"):
        assert reason in told
    swung = [*bent, swing(PLAIN)]
    record = shaft_record(measured(swung), rows(swung))
    assert record["frequency_cpm"] == pytest.approx(258.3, abs=1.0)
    assert record["frequency_set_up"] == {
        "clamp_mm": 127.0,
        "tip_mass_g": 205.0,
        "free_length_mm": 1016.0,
    }
    assert record["mass_g"] is None


def test_twist_that_was_read_stands_by_station() -> None:
    read = [*TABLE, torque(PLAIN)]
    record = shaft_record(measured(read), rows(read))
    stations = record["stations"]
    assert isinstance(stations, list)
    assert stations[20]["gj_sd"] > 0.0
    assert stations[20]["gj_read"] is False
    assert record["torque_set_up"] == {
        "moment_nm": pytest.approx(FOOT_POUND, abs=1e-9),
        "clamp_mm": 127.0,
        "gauge_length_mm": 990.6,
    }


def test_without_a_length_nothing_is_told_beyond_the_last_support() -> None:
    text = " ".join(" ".join(shaft_lines(measured(TABLE), rows(TABLE), whole=False)).split())
    assert "without --length nothing is told beyond the last support, 1143 mm." in text
    assert "length was not given" in text
    assert "cpm" not in text
    record = shaft_record(measured(TABLE), rows(TABLE), whole=False)
    assert (record["length_mm"], record["told_to_mm"]) == (None, 1143.0)
    assert record["mass_g"] is None


def test_a_slip_of_many_rows_is_told_with_the_shaft_beside_it_put_right() -> None:
    heavy = [
        replace(one, force=one.force / GRAVITY) if isinstance(one, ThreePoint) else one
        for one in TABLE
    ]
    text = said(heavy)
    assert "Rows 2 to 23 look wrong together." in text
    assert "Rows 2 to 23 together: another unit (row 2 as " in text
    assert " mm under 50.0 N)?" in text
    assert "rows 2 to 23 put right" in text
    assert "Nothing was changed; the shaft with that put right stands beside." in text
    record = shaft_record(measured(heavy), rows(heavy))
    many = record["doubts_of_many_rows"]
    assert isinstance(many, list)
    assert many[0]["rows"] == list(range(2, 24))
    assert (many[0]["likely"], many[0]["undone"]) == ("unit", True)
    assert record["doubts"] == []
    assert many[0]["without_it"]["stations"][20]["ei_nm2"] == pytest.approx(51.0, rel=0.06)


def test_a_wrong_row_beside_them_is_told_as_well() -> None:
    short = [
        replace(one, value=one.value * (0.25 / 0.3) ** 3, typed="")
        if isinstance(one, ThreePoint) and at > 9
        else one
        for at, one in enumerate(TABLE)
    ]
    short[3] = replace(short[3], value=1.4 * short[3].value, typed="")
    text = said(short)
    assert "Rows 12 to 23 together: another span (250.0 mm)?" in text
    assert "rows 12 to 23 put right and without row 5" in text


def test_a_station_left_out_is_asked_for_and_no_more() -> None:
    exact = three_points(PLAIN, 11, 76.2 * MILLIMETRE, 0.002)
    values = [one.value for one in exact]
    shifted = [
        replace(one, value=value)
        for one, value in zip(exact, values[:6] + values[7:], strict=False)
    ]
    text = said(shifted)
    assert "Rows 8 to 11 together: a station left out or typed twice (row 8 at 683.4 mm)?" in text
    assert "A shaft may be so as well; look at the sheet." in text


def test_rows_apart_are_listed() -> None:
    assert rows_named([2, 3, 4, 9], [0, 1, 3]) == "rows 2, 3 and 9"
    assert rows_named([2, 3, 4, 9], [0, 1, 2]) == "rows 2 to 4"
