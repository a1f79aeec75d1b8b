import pytest

from loftwright.constants import FOOT, MILE_PER_HOUR, YARD
from loftwright.domain.home import Hole, Home, Trouble, Turf
from loftwright.report.home_words import home_lines, wind_words
from loftwright.report.screen_numbers import Show


def test_the_standard_home_is_told_with_its_hole() -> None:
    assert home_lines(Home()) == [
        "Standard hole: 75 °F, 0 ft, 50 % humidity, normal turf, calm.",
        "One hole of 430 yd, fairway 32 yd; each club aimed to score best.",
    ]


def test_air_turf_and_holes_are_those_of_the_course() -> None:
    home = Home(
        name="Farrow Links",
        altitude=1200.0 * FOOT,
        temperature=283.15,
        humidity=0.8,
        turf=Turf.FIRM,
        re_aim=False,
        holes=(
            Hole(length=395.0 * YARD, fairway=28.0 * YARD),
            Hole(length=420.0 * YARD, fairway=34.0 * YARD, trouble=Trouble.LEFT),
        ),
    )
    assert home_lines(home) == [
        "Farrow Links: 50 °F, 1200 ft, 80 % humidity, firm turf, calm.",
        "2 holes of 395 to 420 yd, fairways 28 to 34 yd, trouble on 1 of them; no club re-aimed.",
    ]


@pytest.mark.parametrize(
    ("side", "words"), [(Trouble.RIGHT, "the right"), (Trouble.BOTH, "both sides")]
)
def test_one_hole_tells_its_trouble(side: Trouble, words: str) -> None:
    home = Home(holes=(Hole(trouble=side, trouble_from=25.0 * YARD),))
    assert f"fairway 32 yd, trouble on {words} from 25 yd" in home_lines(home)[1]


@pytest.mark.parametrize(
    ("along", "across", "words"),
    [
        (5.0, 0.0, "wind 5 mph from behind"),
        (-5.0, 0.0, "wind 5 mph against"),
        (0.0, 3.0, "wind 3 mph from the left"),
        (0.0, -3.0, "wind 3 mph from the right"),
        (-4.0, 2.0, "wind 4 mph against and 2 mph from the left"),
        (0.3, -0.3, "calm"),
    ],
)
def test_the_wind_is_told_as_it_is_felt_on_the_tee(
    along: float, across: float, words: str
) -> None:
    home = Home(wind_along=along * MILE_PER_HOUR, wind_across=across * MILE_PER_HOUR)
    assert wind_words(home) == words


def test_a_metric_shop_reads_metres_and_celsius() -> None:
    home = Home(
        name="Farrow Links",
        altitude=366.0,
        temperature=283.15,
        humidity=0.8,
        wind_along=-1.5,
        holes=(Hole(length=361.0, fairway=26.0), Hole(length=384.0, fairway=26.0)),
    )
    assert home_lines(home, Show(units="metric", decimal="comma")) == [
        "Farrow Links: 10 °C, 366 m, 80 % humidity, normal turf, wind 1,5 m/s against.",
        "2 holes of 361 to 384 m, fairways 26 m, trouble on none of them; each club aimed to "
        "score best.",
    ]
