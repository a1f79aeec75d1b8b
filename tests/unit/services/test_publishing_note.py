"""The one line of a person's own claims nothing, counts nothing and names nobody."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.errors import InputError
from loftwright.services.publishing_note import LONGEST, checked_note

NAMES = ("Ottoline Brambleby", "Nook bay", "Slate meter")


@pytest.mark.parametrize(
    "note",
    [
        "The longest shaft we have tried",
        "BEST of the year",
        "longer than the others",
        "it outperforms all",
        "The Winner",
        "the straightest, lightest of them",
        "adds yards",
    ],
)
def test_a_claim_is_refused_with_the_mend(note: str) -> None:
    with pytest.raises(InputError, match="figures with their ranges") as caught:
        checked_note(note, NAMES)
    assert "how the comparison was made" in caught.value.mend


@pytest.mark.parametrize("note", ["up by 12", "hit on 3 May", "in ٣ fittings"])
def test_a_figure_is_refused(note: str) -> None:
    with pytest.raises(InputError, match="no figures"):
        checked_note(note, NAMES)


@pytest.mark.parametrize("note", ["for Ottoline", "from the NOOK BAY", "hit before a slate"])
def test_a_name_is_refused(note: str) -> None:
    with pytest.raises(InputError, match="names nobody"):
        checked_note(note, NAMES)


def test_a_line_on_how_it_was_made_stays() -> None:
    said = checked_note("  Hit from a mat,\n indoors, at the request of a reader ", NAMES)
    assert said == "Hit from a mat, indoors, at the request of a reader"
    assert checked_note("", NAMES) == ""
    with pytest.raises(InputError, match="too long"):
        checked_note("mat " * LONGEST, NAMES)


@given(st.text(max_size=60), st.sampled_from(["best", "Longest", "wins", "Brambleby", "7"]))
def test_no_words_around_it_hide_what_is_refused(around: str, word: str) -> None:
    with pytest.raises(InputError):
        checked_note(f"{around} {word} {around}", NAMES)
