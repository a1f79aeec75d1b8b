"""A table of rounds: read whole, or every line named that is in the way and nothing kept."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import YARD
from loftwright.domain.after_acts import Round
from loftwright.errors import IntakeError
from loftwright.services.rounds_in import RoundsRead, read_rounds, text_of

TAKEN, TODAY = date(2026, 5, 1), date(2026, 8, 1)
HEAD = "day,course,drives,fairways,total_yd,measured\n"


def read(text: str) -> RoundsRead:
    return read_rounds(text, taken=TAKEN, today=TODAY)


def test_a_table_is_read() -> None:
    told = read(f'{HEAD}2026-06-03,"Mossy Bottom, North",13,7,238,6\n\n2026-06-10,,14,8,,\n')
    assert told.refused == ()
    assert told.rounds == (
        Round(
            day=date(2026, 6, 3),
            course="Mossy Bottom, North",
            drives=13,
            fairways=7,
            total=238.0 * YARD,
            measured=6,
        ),
        Round(day=date(2026, 6, 10), course="", drives=14, fairways=8),
    )


def test_metres_semicolons_and_a_decimal_comma_are_read() -> None:
    told = read(
        "\ufeffDay;Course;Drives;Fairways;total_m;measured\r\n2026-06-03;X;13;7;218,5;6\r\n"
    )
    assert told.rounds[0].total == pytest.approx(218.5)


def test_total_and_course_may_be_left_out() -> None:
    assert len(read("day,drives,fairways\n2026-06-03,13,7\n").rounds) == 1


def test_every_refused_line_is_named_with_its_mend_and_nothing_is_kept() -> None:
    told = read(
        f"{HEAD}2026-06-03,A,13,7,238,6\n03.06.2026,A,13,7,,\n2026-06-04,A,13,14,,\n"
        "2026-06-05,A,thirteen,7,,\n2026-06-06,A,13,7,238 yd,6\n2026-06-07,A,13,7,238,\n"
        "2026-08-02,A,13,7,,\n2026-04-30,A,13,7,,\n2026-06-03,a,12,7,,\n2026-06-09,A,13\n"
        "2026-06-11,A,13,7,900,6\n"
    )
    assert told.rounds == ()
    assert [one.number for one in told.refused] == list(range(3, 13))
    said = [one.what for one in told.refused]
    for line, words in zip(
        said,
        [
            "day: '03.06.2026' is no day",
            "fairways: 14 fairways of 13 drives",
            "drives: 'thirteen' is no whole number",
            "total_yd: '238 yd' is no figure",
            "measured: 0 measured of 13 drives",
            "day: 2026-08-02 is still to come",
            "day: on 2026-04-30 the golfer did not have the club",
            "this round stands in line 2 already",
            "it has 3 cells below 6 headings",
            "an average drive of 823 m",
        ],
        strict=True,
    ):
        assert line.startswith(words), line
    assert all(one.mend for one in told.refused)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is empty"),
        ("  \n", "is empty"),
        (HEAD, "no round stands below"),
        ("day,drives\n2026-06-03,13\n", "lack fairways"),
        ("2026-06-03,A,13,7,238,6\n", "lack day and drives and fairways"),
        ("day,drives,fairways,score\n2026-06-03,13,7,80\n", "'score' is unknown"),
        ("day,drives,fairways,total\n2026-06-03,13,7,240\n", "'total' is unknown"),
        ("day,day,drives,fairways\n,,,\n", "'day' stands there twice"),
        ("day,drives,fairways,total_yd,total_m,measured\n,,,,,\n", "in yards and in metres"),
        ("day,drives,fairways,total_yd\n2026-06-03,13,7,240\n", "go together"),
    ],
)
def test_headings_that_cannot_be_are_refused(text: str, message: str) -> None:
    with pytest.raises(IntakeError, match=message) as refused:
        read(text)
    assert refused.value.mend


def test_a_file_that_is_no_text_or_far_too_large_is_refused() -> None:
    assert text_of("\ufeffday".encode()) == "day"
    with pytest.raises(IntakeError, match="UTF-8"):
        text_of(b"\xff\xfe\x00d")
    with pytest.raises(IntakeError, match="too many"):
        text_of(b"x" * 200_001)


def test_a_season_is_at_most_two_hundred_rounds_at_once() -> None:
    lines = "".join(f"2026-06-03,{place},13,7,,\n" for place in range(201))
    with pytest.raises(IntakeError, match="too many at once"):
        read(HEAD + lines)


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_with_words(text: str) -> None:
    try:
        told = read(HEAD + text)
    except IntakeError as error:
        said = error.mend
    else:
        said = " ".join(one.mend for one in told.refused)
        assert bool(told.rounds) != bool(told.refused)
        if told.rounds:
            return
    assert said
