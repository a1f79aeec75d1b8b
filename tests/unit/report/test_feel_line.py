import re
from collections.abc import Callable
from itertools import combinations

import pytest

from loftwright.errors import InputError
from loftwright.report.feel_line import ENDS, FeelMark, feel_line, feel_words, place_words
from loftwright.report.marks import deal_marks

CLUBS = ["Own", "Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel", "Larch"]
SHAPES = deal_marks(CLUBS, "Own")


def feel(club: str, place: float, word: str = "") -> FeelMark:
    return FeelMark(club=club, shape=SHAPES[club], place=place, word=word)


def centres(svg: str) -> dict[str, tuple[float, float]]:
    """Return the middle of each club's shape, from its title."""
    found = {}
    for d, club in re.findall(r'<path d="(M[^"]*)"[^>]*><title>(\w+):', svg):
        points = [tuple(map(float, pair.split(","))) for pair in re.findall(r"[\d.]+,[\d.]+", d)]
        found[club] = (
            sum(x for x, _ in points) / len(points),
            sum(y for _, y in points) / len(points),
        )
    return found


def test_the_line_runs_from_would_not_play_to_want_it() -> None:
    svg = feel_line([feel("Ash", 0.0), feel("Cedar", 0.5), feel("Fir", 1.0)])
    places = centres(svg)
    assert places["Ash"][0] == pytest.approx(ENDS[0], abs=0.1)
    assert places["Cedar"][0] == pytest.approx(sum(ENDS) / 2.0, abs=0.1)
    assert places["Fir"][0] == pytest.approx(ENDS[1], abs=0.1)
    assert svg.index("would not play</text>") < svg.index("want it</text>")


def test_the_attributes_turn_a_tap_into_a_place() -> None:
    svg = feel_line([])
    assert f'data-left="{ENDS[0]:g}" data-right="{ENDS[1]:g}"' in svg


def test_the_newest_word_stands_over_the_newest_club_alone() -> None:
    svg = feel_line([feel("Ash", 0.2, "dead"), feel("Cedar", 0.6, "solid")])
    assert "“solid”" in svg
    assert "dead" not in svg
    x = re.search(r'x="([\d.]+)" y="14.0"', svg)
    assert x is not None
    assert float(x.group(1)) == pytest.approx(ENDS[0] + 0.6 * (ENDS[1] - ENDS[0]), abs=0.1)


def test_clubs_at_one_place_are_all_seen() -> None:
    svg = feel_line([feel(club, 0.5) for club in CLUBS if club != "Own"])
    places = centres(svg)
    assert len(places) == len(CLUBS) - 1
    for one, two in combinations(places.values(), 2):
        assert abs(one[0] - two[0]) > 12.0 or abs(one[1] - two[1]) > 10.0


@pytest.mark.parametrize("place", [0.0, 0.5, 1.0])
def test_words_stand_apart_and_inside(
    place: float, misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    svg = feel_line([feel("Own", 0.4), feel("Ash", place, "whippy at the top, then nothing")])
    assert misplaced(svg) == []
    on_screen(svg)


def test_a_very_long_word_is_cut(misplaced: Callable[[str], list[str]]) -> None:
    svg = feel_line([feel("Ash", 0.5, "as if " * 30)])
    assert "…”" in svg
    assert misplaced(svg) == []


def test_a_word_is_text_and_never_markup() -> None:
    assert "&lt;b&gt;" in feel_line([feel("Ash", 0.5, "<b>")])


@pytest.mark.parametrize("place", [-0.1, 1.1, float("nan")])
def test_a_place_off_the_line_is_refused(place: float) -> None:
    with pytest.raises(InputError, match="not on the line"):
        feel("Ash", place)


def test_the_twin_names_the_most_wanted_first() -> None:
    told = feel_words([feel("Ash", 0.2), feel("Own", 0.5), feel("Cedar", 0.8, "solid")])
    assert told == "Feel: Cedar near want it, “solid”, Own fine and Ash near would not play."
    assert feel_words([]) == "Nothing was said of the feel of a club yet."
    assert [place_words(place) for place in (0.0, 0.5, 1.0)] == [
        "would not play",
        "fine",
        "want it",
    ]
