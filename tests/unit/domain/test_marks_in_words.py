"""Marks in words; the figures behind them are judgements."""

import pytest

from loftwright.constants import MILLIMETRE
from loftwright.domain.coarse_marks import WORDS, coarse_mark, is_coarse_word
from loftwright.domain.fitting import MARK_ERROR
from loftwright.errors import InputError


@pytest.mark.parametrize("words", WORDS)
def test_every_word_of_the_table_is_a_mark(words: str) -> None:
    toe, high, error = WORDS[words]
    mark = coarse_mark(words)
    assert (mark.toe, mark.high) == pytest.approx((toe * MILLIMETRE, high * MILLIMETRE))
    assert mark.error == pytest.approx(error * MILLIMETRE)
    assert mark.words == words


@pytest.mark.parametrize("words", WORDS)
def test_a_word_is_vaguer_than_a_tap(words: str) -> None:
    assert coarse_mark(words).error > 2.0 * MARK_ERROR


@pytest.mark.parametrize(
    ("said", "toe", "high"),
    [
        ("toe-high", 14.0, 8.0),
        ("Heel, low", -14.0, -8.0),
        ("slightly toe and thin", 7.0, -11.0),
        ("far heel far high", -25.0, 15.0),
        ("a bit low", 0.0, -4.0),
        ("flush", 0.0, 0.0),
        ("toe slightly", 7.0, 0.0),
        ("very thin", 0.0, -11.0),
        ("low of the heel", -14.0, -8.0),
    ],
)
def test_words_are_joined(said: str, toe: float, high: float) -> None:
    mark = coarse_mark(said)
    assert (mark.toe, mark.high) == pytest.approx((toe * MILLIMETRE, high * MILLIMETRE))


def test_the_vaguer_of_two_words_gives_the_error() -> None:
    assert coarse_mark("slightly toe, far high").error == pytest.approx(8.0 * MILLIMETRE)


@pytest.mark.parametrize("said", ["toe heel", "high thin", "middle toe", "", "slightly", "-"])
def test_words_that_name_no_one_place_are_refused(said: str) -> None:
    with pytest.raises(InputError, match="no one place"):
        coarse_mark(said)


def test_an_unknown_word_is_named_with_the_nearest() -> None:
    with pytest.raises(InputError) as caught:
        coarse_mark("toe-hihg")
    assert "'hihg'" in caught.value.message
    assert "high" in caught.value.mend


@pytest.mark.parametrize(
    ("word", "is_one"),
    [("toe", True), ("toe-high", True), ("far", True), ("12", False), ("", False), ("Elm", False)],
)
def test_a_word_of_the_table_is_known(word: str, is_one: bool) -> None:
    assert is_coarse_word(word) is is_one
