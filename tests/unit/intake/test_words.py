"""Headings in the words of the trade."""

import pytest

from loftwright.domain.device import Origin
from loftwright.intake.words import read_heading, side_of, sign_words, tokens


@pytest.mark.parametrize(
    ("text", "means", "unit"),
    [
        ("Ball Speed (mph)", "ball speed", "mph"),
        ("ball_speed_mph", "ball speed", "mph"),
        ("BallSpeed", "ball speed", None),
        ("ballSpeedKmh", "ball speed", "km/h"),
        ("Ballgeschwindigkeit [km/h]", "ball speed", "km/h"),
        ("Vitesse de balle (m/s)", "ball speed", "m/s"),
        ("Velocidad de la bola", "ball speed", None),
        ("Velocità della palla", "ball speed", None),
        ("Bollhastighet", "ball speed", None),
        ("Balsnelheid", "ball speed", None),
        ("ボール初速(m/s)", "ball speed", "m/s"),
        ("볼 스피드 (m/s)", "ball speed", "m/s"),
        ("Launch Angle °", "launch", "deg"),
        ("Abflugwinkel (Grad)", "launch", "deg"),
        ("Angle de lancement", "launch", None),
        ("Ángulo de salida", "launch", None),
        ("打ち出し角(上下)", "launch", None),
        ("Horizontal launch angle", "direction", None),
        ("Startrichtung", "direction", None),
        ("Side angle [deg]", "direction", "deg"),
        ("Spin Rate (rpm)", "spin", "rpm"),
        ("Drehzahl [U/min]", "spin", "rpm"),
        ("Back spin", "back spin", None),
        ("Seitendrall", "side spin", None),
        ("Side (rpm)", "side spin", "rpm"),
        ("Side (yd)", "offline", "yd"),
        ("Spin Axis", "axis", None),
        ("Axe de rotation", "axis", None),
        ("Club Speed", "head speed", None),
        ("Schlägerkopfgeschwindigkeit", "head speed", None),
        ("Schlaegerkopfgeschwindigkeit", "head speed", None),
        ("Vitesse de tête de club", "head speed", None),
        ("Angle d'attaque", "attack", None),
        ("Angolo d'attacco", "attack", None),
        ("AoA", "attack", None),
        ("Club Path", "path", None),
        ("Schwungpfad", "path", None),
        ("Face Angle", "face", None),
        ("Face to Path (deg)", "face to path", "deg"),
        ("Schlagfläche zum Schwungpfad", "face to path", None),
        ("Strike Toe-Heel (mm)", "strike toe", "mm"),
        ("Impact Height [mm]", "strike high", "mm"),
        ("Carry m", "carry", "m"),
        ("Flugweite", "carry", None),
        ("Total Distance", "total", None),
        ("Height (ft)", "peak height", "ft"),
        ("Hang time", "flight time", None),
        ("Launch V", "launch", None),
        ("Launch (H)", "direction", None),
        ("Launch Ang. (°)", "launch", "deg"),
        ("Ball Spd [mph]", "ball speed", "mph"),
        ("Launch Dir", "direction", None),
        ("Horiz. Launch Ang", "direction", None),
        ("Dyn. Loft", "dynamic loft", None),
        ("Max Ht (ft)", "peak height", "ft"),
        ("Shot #", "ball", None),
        ("N°", "ball", None),
        ("Date/Time", "time", None),
        ("Joueur", "golfer", None),
        ("Schläger", "club", None),
        ("klubba", "club", None),
        ("クラブ", "club", None),
    ],
)
def test_headings_are_known_in_several_languages(text: str, means: str, unit: str | None) -> None:
    heading = read_heading(text)
    assert heading.meanings == (means,)
    assert (heading.unit.name if heading.unit else None) == unit


@pytest.mark.parametrize(
    ("text", "meanings"),
    [
        ("Speed (mph)", {"ball speed", "head speed"}),
        ("Distance", {"carry", "total"}),
        ("Winkel", {"launch", "attack", "direction"}),
    ],
)
def test_words_that_could_be_two_quantities_stay_open(text: str, meanings: set[str]) -> None:
    assert set(read_heading(text).meanings) == meanings


def test_a_side_or_unit_settles_an_open_word() -> None:
    assert read_heading("Strike (toe +) mm").meanings == ("strike toe",)
    assert read_heading("Height [mm]").meanings == ("strike high",)


@pytest.mark.parametrize(
    ("text", "sign", "world"),
    [
        ("Path (deg, right +)", 1, True),
        ("Path (out-to-in +)", -1, False),
        ("Face [°, closed +]", -1, False),
        ("Direction (left +)", -1, True),
        ("Spin axis (R+/L-)", 1, True),
        ("Spin axis (L+)", -1, True),
        ("Strike toe (heel +)", -1, False),
        ("Path", 0, False),
        ("Offline L/R", 0, False),
    ],
)
def test_headings_may_tell_their_positive_side(text: str, sign: int, world: bool) -> None:
    heading = read_heading(text)
    assert (heading.sign, heading.world) == (sign, world)


def test_headings_may_say_that_a_column_was_calculated() -> None:
    assert read_heading("Carry (calc.) yd").origin is Origin.CALCULATED
    assert read_heading("Spin rate est. [rpm]").origin is Origin.CALCULATED
    assert read_heading("Carry (normalised)").origin is Origin.CALCULATED
    assert read_heading("Spin (measured)").origin is Origin.MEASURED
    assert read_heading("Spin").origin is Origin.UNKNOWN


@pytest.mark.parametrize("text", ["", "Gizmo", "the quick brown fox", "x" * 5000, "((((", "%%%"])
def test_words_that_mean_nothing_here_stay_unknown(text: str) -> None:
    assert read_heading(text).meanings == ()


def test_words_are_parted_at_capitals_and_marks() -> None:
    assert tokens("BallSpeed_mph") == ("ball", "speed", "mph")
    assert tokens("Ángulo-de salida") == ("angulo", "de", "salida")
    assert sign_words("L -") == ("right",)
    assert side_of("rechts") == "right"
    assert side_of("nowhere") is None
