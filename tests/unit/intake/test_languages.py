"""Whole tables in the languages and unit spellings of the trade, read to the same balls."""

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, YARD
from loftwright.intake.table import ReadOptions, read_shots
from loftwright.intake.words import read_heading
from shot_tables import Drive, Rows, Writer, assert_same_launch, comma, number

KILOMETRES = 1.609344
TABLES = {
    "German": (
        "Schläger;Ballgeschwindigkeit (km/h);Abflugwinkel (Grad);Startrichtung (Grad);"
        "Gesamtspin (U/min);Spinachse (Grad);Schlägerkopfgeschwindigkeit (km/h);Flugweite (m)"
    ),
    "French": (
        "Club;Vitesse de balle (km/h);Angle de décollage (degrés);Direction de départ (degrés);"
        "Taux de spin (tr/min);Axe de rotation (degrés);Vitesse de tête de club (km/h);Portée (m)"
    ),
    "Spanish": (
        "Palo;Velocidad de la bola (km/h);Ángulo de lanzamiento (grados);"
        "Dirección de salida (grados);Giro total (rpm);Eje de giro (grados);"
        "Velocidad de la cabeza del palo (km/h);Vuelo (metros)"
    ),
    "Italian": (
        "Bastone;Velocità palla (km/h);Angolo di lancio (gradi);Direzione di lancio (gradi);"
        "Spin totale (giri/min);Asse di rotazione (gradi);Velocità testa bastone (km/h);"
        "Distanza di volo (metri)"
    ),
    "Swedish": (
        "Klubba;Bollhastighet (km/tim);Utgångsvinkel (grader);Startriktning (grader);"
        "Spinn (varv/min);Spinnaxel (grader);Klubbhuvudhastighet (km/tim);Carrylängd (meter)"
    ),
    "Dutch": (
        "Golfclub;Balsnelheid (km/u);Lanceerhoek (graden);Startrichting (graden);"
        "Spinsnelheid (omw/min);Spinas (graden);Clubhoofdsnelheid (km/u);Draagafstand (meter)"
    ),
    "Japanese": (
        "クラブ;ボール初速(km/h);打ち出し角(度);打ち出し方向(度);"
        "スピン量(rpm);スピン軸(度);ヘッドスピード(km/h);キャリー(メートル)"
    ),
    "Korean": (
        "클럽;볼 스피드(km/h);발사각(도);발사 방향(도);스핀량(rpm);스핀축(도);"
        "헤드 스피드(km/h);캐리(미터)"
    ),
}


@pytest.mark.parametrize("language", TABLES)
def test_a_table_of_every_language_reads_to_the_same_balls(
    write: Writer, drives: list[Drive], language: str
) -> None:
    rows: Rows = [[TABLES[language]]]
    for drive in drives:
        figures = (
            comma(KILOMETRES * number(drive, "ball speed"), 2),
            *(comma(number(drive, key)) for key in ("launch", "direction")),
            f"{number(drive, 'spin') / 1000.0:.3f}",
            comma(number(drive, "axis")),
            comma(KILOMETRES * number(drive, "head speed"), 2),
            comma(0.9144 * number(drive, "carry"), 2),
        )
        rows.append([drive["club"], *figures])
    table = read_shots(write(rows, delimiter=";"), ReadOptions())
    assert not table.warnings
    assert_same_launch(table.shots, drives, rel=1e-4)
    for shot, drive in zip(table.shots, drives, strict=True):
        assert shot.direction == pytest.approx(number(drive, "direction") * DEGREE)
        assert shot.axis == pytest.approx(number(drive, "axis") * DEGREE)
        head = number(drive, "head speed") * MILE_PER_HOUR
        assert shot.head_speed == pytest.approx(head, rel=1e-4)
        assert shot.carry == pytest.approx(number(drive, "carry") * YARD, rel=1e-4)


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        *((f"Ball speed {told}", "mph") for told in ("(mph)", "[MPH]", ", mph", "- mph", "/ mph")),
        *((f"Ball speed {told}", "mph") for told in ("in mph", "m.p.h.", "(miles per hour)")),
        *((f"Ball speed {told}", "m/s") for told in ("m/s", "(m·s⁻¹)", "[m s-1]", "mps")),
        *((f"Ball speed {told}", "km/h") for told in ("kph", "(km·h⁻¹)", "KM/H", "[km/std]")),
        *(
            (f"Spin {told}", "rpm")
            for told in ("RPM", "(r.p.m.)", "[1/min]", "(min⁻¹)", "rev/min")
        ),
        *((f"Launch {told}", "deg") for told in ("°", "(º)", "deg.", "[degrees]")),
        *((f"Carry {told}", "yd") for told in ("yds", "(Yards)", "[yd.]", "(ヤード)")),
        *((f"Apex {told}", "ft") for told in ("ft", "(feet)", "'")),
        *((f"Strike toe {told}", "in") for told in ('(")', "inch", "[inches]")),
        ("BallSpeed_MPH", "mph"),
        ("ball_speed_mph", "mph"),
        ("BallSpeedKmh", "km/h"),
    ],
)
def test_units_of_headings_are_spelled_in_many_ways(heading: str, unit: str) -> None:
    found = read_heading(heading)
    assert len(found.meanings) == 1
    assert found.unit is not None
    assert found.unit.name == unit
