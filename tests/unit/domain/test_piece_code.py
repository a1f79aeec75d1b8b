"""Codes of labels: the same for ever, and one misread sign never opens another part."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.piece_code import ALPHABET, code_of, piece_of, read_code
from loftwright.errors import InputError

IDS = st.text(min_size=1, max_size=40).filter(lambda text: text.isprintable())


def test_a_code_never_changes() -> None:
    """A label that was printed years ago still opens its part (self-consistent)."""
    assert code_of("p1") == "TAC-27X-4Y5"


@given(piece=IDS)
def test_a_code_is_read_as_it_is_printed(piece: str) -> None:
    code = code_of(piece)
    assert read_code(code) == code
    assert read_code(code.lower().replace("-", " ")) == code
    assert piece_of(code, [piece, "another"]) == piece


@given(piece=IDS, place=st.integers(0, 8), sign=st.sampled_from(ALPHABET))
def test_one_wrong_sign_is_always_seen(piece: str, place: int, sign: str) -> None:
    signs = code_of(piece).replace("-", "")
    wrong = signs[:place] + sign + signs[place + 1 :]
    if wrong != signs:
        with pytest.raises(InputError, match="was misread"):
            read_code(wrong)


@given(piece=IDS, place=st.integers(0, 6))
def test_two_neighbours_swapped_are_always_seen(piece: str, place: int) -> None:
    signs = code_of(piece).replace("-", "")
    swapped = signs[:place] + signs[place + 1] + signs[place] + signs[place + 2 :]
    if swapped != signs:
        with pytest.raises(InputError, match="was misread"):
            read_code(swapped)


@pytest.mark.parametrize("text", ["", "TAC-27X", "TAC-27X-4Y0", "TAC-27X-4Y5S", "é" * 9])
def test_what_is_no_code_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is no label’s code"):
        read_code(text)


def test_a_code_of_another_shop_opens_nothing() -> None:
    with pytest.raises(InputError, match="no part here bears the label") as refused:
        piece_of(code_of("p1"), ["p2"])
    assert "another shop" in refused.value.mend


def test_two_parts_of_one_code_are_not_guessed_between() -> None:
    with pytest.raises(InputError, match="2 parts bear the label"):
        piece_of(code_of("p1"), ["p1", "p1"])
