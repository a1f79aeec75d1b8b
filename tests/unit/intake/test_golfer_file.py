"""Golfer files: what is lacking or unknown is named with its place."""

from pathlib import Path

import pytest

from fuzz_seeds import GOLFER
from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Hand, Wish
from loftwright.errors import InputError, IntakeError
from loftwright.intake.golfer_file import read_golfer
from loftwright.physics.shaft_swing.players import Loading


def read(folder: Path, text: str) -> object:
    path = folder / "golfer.toml"
    path.write_text(text, encoding="utf-8")
    return read_golfer(path)


def test_every_key_is_read_into_si(tmp_path: Path) -> None:
    path = tmp_path / "golfer.toml"
    path.write_text(GOLFER, encoding="utf-8")
    golfer = read_golfer(path)
    assert golfer.hand is Hand.LEFT
    assert golfer.wish is Wish.LOWER
    assert golfer.loadings == (Loading.SMOOTH_EARLY,)
    figures = (golfer.head_speed, golfer.length, golfer.loft, golfer.head_mass, golfer.tip_trim)
    expected = (75 * MILE_PER_HOUR, 45.5 * INCH, 12 * DEGREE, 198 * GRAM, 0.5 * INCH)
    assert figures == pytest.approx(expected)


def test_what_may_be_left_out_stands_as_usual(tmp_path: Path) -> None:
    path = tmp_path / "golfer.toml"
    path.write_text("head_speed_mph = 93\n[own]\nlength_inch = 45\n", encoding="utf-8")
    golfer = read_golfer(path)
    assert golfer.loadings == tuple(Loading)
    assert golfer.wish is Wish.DISTANCE
    assert golfer.loft is None
    assert golfer.shaft == ""


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("[own]\nlength_inch = 45\n", "head_speed_mph", "missing"),
        ("head_speed_mph = 93\n", "own", "missing"),
        ("head_speed_mph = 93\n[own]\nshaft = 'x'\n", "length_inch", "no length"),
        ("head_speed_mph = 93\nhed = 1\n[own]\nlength_inch = 45\n", "golfer.toml", "'hed'"),
        ("head_speed_mph = 93\n[own]\nlength_in = 45\n", "own", "'length_in'"),
        (GOLFER.replace("lower", "longer"), "goal", "one of distance"),
        (GOLFER.replace("smooth_early", "smooth"), "loading", "one of quick_late"),
        (GOLFER.replace("75", "'fast'"), "head_speed_mph", "a number"),
    ],
)
def test_a_wrong_file_names_the_place(tmp_path: Path, text: str, place: str, words: str) -> None:
    with pytest.raises(InputError) as told:
        read(tmp_path, text)
    assert place in told.value.place
    assert words in told.value.message


def test_a_home_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(IntakeError) as told:
        read(tmp_path, 'home = "away.toml"\n' + GOLFER)
    assert "away.toml" in told.value.place
