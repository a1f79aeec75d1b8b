"""A cell of a table that somebody opens in a table program shows its text and runs nothing."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.table_cell import as_typed, harmless

BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""OWASP ASVS 5.0, 1.2.10 (published), and CSV Injection for the wide ones (from memory)."""

risky = st.builds(
    "".join,
    st.tuples(st.text("'", max_size=3), st.sampled_from(("", " ", *BEGINS)), st.text()),
)


@pytest.mark.parametrize("first", BEGINS)
def test_what_a_table_program_would_run_begins_with_an_apostrophe(first: str) -> None:
    assert harmless(f"{first}cmd|' /C calc'!A0").startswith("'")


@pytest.mark.parametrize("number", ["-3.2", "+3", "-3,2", "0", "-1e-05", "12.5", "+0.0"])
def test_a_number_stays_as_it_is(number: str) -> None:
    assert harmless(number) == number


@pytest.mark.parametrize("text", ["", "Ash", "O'Neill", "'s", "a=b", "3-wood", "ü-+="])
def test_a_plain_text_stays_as_it_is(text: str) -> None:
    assert harmless(text) == text == as_typed(text)


@pytest.mark.parametrize("text", ["-1+2", "+1-1", "-3.2.1", "--3", "-", "=1", "- 3", "-3\n"])
def test_what_only_looks_like_a_number_is_guarded(text: str) -> None:
    assert harmless(text) == f"'{text}"


@given(risky | st.text())
def test_a_guarded_text_is_read_as_it_was_typed(text: str) -> None:
    assert as_typed(harmless(text)) == one_ending(text)


@given(risky | st.text())
def test_no_cell_begins_with_what_runs_unless_it_is_a_number(text: str) -> None:
    cell = harmless(text)
    if cell.lstrip().startswith(BEGINS):
        assert float(cell.replace(",", ".")) is not None


@given(st.lists(risky, min_size=1, max_size=4))
def test_a_row_of_cells_comes_back_through_the_writer_and_the_reader(row: list[str]) -> None:
    """RFC 4180, 2.5 to 2.7: quoted cells hold commas, quotation marks and line breaks."""
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\n").writerow([harmless(one) for one in row])
    (found,) = csv.reader(io.StringIO(out.getvalue(), newline=""), strict=True)
    assert [as_typed(one) for one in found] == [one_ending(one) for one in row]


def one_ending(text: str) -> str:
    """Return a text whose lines end by a line feed alone."""
    return text.replace("\r\n", "\n").replace("\r", "\n")
