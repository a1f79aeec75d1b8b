import pytest

from loftwright.report.marks import deal_marks
from loftwright.report.runs import (
    breakable,
    club,
    clubs,
    mark_key,
    marked,
    plain,
    shortened,
    tied,
)

MARKS = deal_marks(["Own", "Birch", "Birch 66", "A", "7", "C++"], "Own")


def words(runs: list[dict[str, str]]) -> str:
    return "".join(run.get("club", run.get("text", "")) for run in runs)


def test_every_name_in_a_sentence_carries_its_marker() -> None:
    runs = marked("Birch goes further than Own.", MARKS)
    assert runs == [
        club("Birch"),
        plain(" goes further than "),
        club("Own"),
        plain("."),
    ]


def test_the_longer_of_two_names_is_found() -> None:
    assert marked("Play Birch 66 now", MARKS)[1] == club("Birch 66")


def test_a_name_inside_a_word_is_not_a_club() -> None:
    assert marked("Birchwood and Owner", MARKS) == [plain("Birchwood and Owner")]


def test_names_too_short_to_be_told_from_words_stay_plain() -> None:
    sentence = "A ball in 7 balls"
    assert marked(sentence, MARKS) == [plain(sentence)]


def test_names_with_signs_of_patterns_are_found_as_they_are() -> None:
    assert marked("C++ leads.", MARKS)[0] == club("C++")


def test_no_word_of_a_sentence_is_lost() -> None:
    sentence = "Own, Birch and Birch 66 are too close to call today."
    assert words(marked(sentence, MARKS)) == sentence


def test_a_long_list_of_clubs_ends_in_a_number() -> None:
    runs = clubs([f"Demo {index}" for index in range(9)], most=4)
    assert words(runs) == "Demo 0, Demo 1, Demo 2 and 6 others"
    assert words(clubs(["Ash", "Elm"], "or")) == "Ash or Elm"
    assert words(clubs(["Ash"])) == "Ash"


@pytest.mark.parametrize(
    ("text", "tight"),
    [
        ("1 to 10 yd further", "1\u00a0to\u00a010\u00a0yd further"),
        ("+0.9 to −2.0", "+0.9\u00a0to\u00a0−2.0"),
        ("84 % of it", "84\u00a0% of it"),
        ("12 inside", "12 inside"),
        ("7 degrees", "7 degrees"),
    ],
)
def test_a_number_never_parts_from_its_unit(text: str, tight: str) -> None:
    assert tied(text) == tight


def test_only_very_long_words_may_break() -> None:
    assert "\u200b" not in breakable("Counterbalanced shafts")
    assert "\u200b" in breakable("Supercalifragilisticexpialidocious")
    assert breakable("x" * 60).replace("\u200b", "") == "x" * 60


def test_a_shortened_name_is_as_long_as_asked_and_says_that_it_was_cut() -> None:
    assert shortened("Demo Badger 66 stiff", 12) == "Demo Badger…"
    assert shortened("Demo Badger", 12) == "Demo Badger"


def test_keys_of_marks_are_plain_letters_for_any_name() -> None:
    assert mark_key("Ash") == "417368"
    assert mark_key("\ud800").isalnum()
    assert mark_key("Ash") != mark_key("ash")
