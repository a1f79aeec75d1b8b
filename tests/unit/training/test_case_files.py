"""Case files: ten that are read, and every fault named with its key and its mend."""

import re
from importlib import resources

import pytest

from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.errors import InputError
from loftwright.training.case_files import case_named, known_cases, read_case
from loftwright.training.golfer import ABILITIES, FACE, HIGH

SHORT = """
golfer = "Ida Invented"
brief = "She comes in."
lesson = "Look twice."
goal = "Further"
ability = "mid"
balls = 20
minutes = 40
seed = 3
dropped = [4]

[swing]
head_speed_mph = 90
strike_high_mm = -4

[own]
shaft = "One"
label = "soft"
loft_deg = 10.5
length_inch = 45.25
shaft_g = 55

[[clubs]]
shaft = "Two"
label = "firm"
loft_deg = 9
length_inch = 45
shaft_g = 65
[clubs.does]
face_deg = 0.5

[[spells]]
shaft = "Two"
first = 2
last = 4
strike_toe_mm = 6
"""


def test_ten_cases_come_with_the_program() -> None:
    assert [case.name for case in known_cases()] == [
        *("bryony", "campion", "comfrey", "figwort", "larkspur"),
        *("mallow", "sorrel", "tansy", "teasel", "yarrow"),
    ]
    for case in known_cases():
        assert len(case.lesson.split()) > 25
        assert case.lesson not in case.brief


def test_a_case_says_what_its_file_says_in_si() -> None:
    case = read_case(SHORT, "short")
    assert case.hand is Hand.RIGHT
    assert case.seconds == 2400.0
    assert case.dropped == (4,)
    assert case.mean[0] == pytest.approx(90.0 * MILE_PER_HOUR)
    assert case.mean[HIGH] == pytest.approx(-4.0 * MILLIMETRE)
    assert case.mean[1] == pytest.approx(ABILITIES["mid"].mean[1])
    own, two = case.clubs
    assert not own.does.any()
    assert two.does[FACE] == pytest.approx(0.5 * DEGREE)
    assert (two.loft, two.length, two.shaft_mass) == pytest.approx(
        (9.0 * DEGREE, 45.0 * INCH, 65.0 * GRAM)
    )
    (spell,) = case.spells
    assert (spell.first, spell.last, spell.toe, spell.high) == (2, 4, 6.0 * MILLIMETRE, 0.0)


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        ("balls = 20", "bals = 20", "short", "'balls'"),
        ("balls = 20", 'balls = "many"', "short, balls", "a whole number"),
        ("balls = 20", "balls = 4", "short, balls", "4 balls for 2 clubs"),
        ("minutes = 40", "minutes = 0", "short, minutes", "1 to 240"),
        ('goal = "Further"', 'goal = ""', "short, goal", "a text"),
        ('ability = "mid"', 'ability = "pro"', "short, ability", "one of tour"),
        ("seed = 3", 'seed = 3\nhand = "both"', "short, hand", "right or left"),
        ("seed = 3", "seed = -3", "short, seed", "no seed"),
        ("dropped = [4]", 'dropped = ["4"]', "short, dropped", "whole numbers"),
        ("dropped = [4]", "dropped = [21]", "short, dropped", "outside"),
        ("loft_deg = 9", "loft_deg = 90", "short, clubs 1, loft_deg", "4 to 20"),
        ("face_deg = 0.5", "face_dg = 0.5", "short, clubs 1, does", "'face_deg'"),
        ("face_deg = 0.5", "face_deg = nan", "short, clubs 1, does, face_deg", "-20 to 20"),
        ('shaft = "Two"\nfirst', 'shaft = "Three"\nfirst', "short, spells", "Three"),
        ("first = 2", "first = 0", "short, spells", "ball 0"),
        ("[swing]", "[[swing]]", "short, swing", "a table"),
        ("[[clubs]]", "[clubs]", "short, clubs", "list of tables"),
        ('label = "soft"', "", "short, own, label", "nothing"),
        ("[own]", "[own", "short", "no TOML"),
    ],
)
def test_a_fault_is_named_with_its_key_and_its_mend(
    old: str, new: str, place: str, message: str
) -> None:
    assert old in SHORT
    with pytest.raises(InputError, match=re.escape(message)) as caught:
        read_case(SHORT.replace(old, new, 1), "short")
    assert caught.value.place == place
    assert caught.value.mend


def test_an_unknown_case_is_named_with_the_nearest() -> None:
    with pytest.raises(InputError, match="The nearest is larkspur; there are bryony"):
        case_named("larkspure")
    with pytest.raises(InputError, match="There are bryony"):
        case_named("zzz")


def test_no_file_says_more_than_is_read() -> None:
    """Every line of every file is a key that is known, a table, or text within quotes."""
    folder = resources.files("loftwright.training").joinpath("cases")
    for file in folder.iterdir():
        if file.name.endswith(".toml"):
            assert "#" not in file.read_text(encoding="utf-8")
