"""Where a table begins and how it is written."""

from collections.abc import Sequence

import pytest

from loftwright.errors import IntakeError
from loftwright.intake.dialect import find_dialect
from loftwright.intake.files import Record
from loftwright.intake.headers import find_layout, is_unit_row, unknown_layout
from shot_tables import Writer

ENGLISH = ["Club", "Ball speed (mph)", "Launch (deg)", "Spin (rpm)"]
BALLS = [["Ash", "148.2", "12.5", "2650"], ["Ash", "147.1", "13.5", "2710"]]


def rows_of(*rows: Sequence[str]) -> list[Record]:
    return [Record(line=number, cells=tuple(row)) for number, row in enumerate(rows, start=1)]


def test_one_row_of_headings_is_found_below_a_preamble() -> None:
    rows = rows_of(["Session of a rainy day"], ["Bay 3", "", "", ""], ENGLISH, *BALLS)
    layout = find_layout(rows, frozenset())
    assert layout is not None
    assert layout.last_header_line == 3
    assert [head.heading.meanings for head in layout.heads] == [
        ("club",),
        ("ball speed",),
        ("launch",),
        ("spin",),
    ]


def test_two_rows_of_headings_are_joined_under_their_group() -> None:
    upper = ["", "Ball", "", "", "Club", ""]
    lower = ["Club name", "Speed", "Launch angle", "Direction", "Speed", "Path"]
    units = ["", "mph", "deg", "deg", "mph", "deg"]
    balls = ["Ash", "148", "12", "1.0", "101", "2"]
    layout = find_layout(rows_of(upper, lower, units, balls, balls), frozenset())
    assert layout is not None
    assert layout.last_header_line == 3
    assert [head.heading.meanings[0] for head in layout.heads] == [
        "club",
        "ball speed",
        "launch",
        "direction",
        "head speed",
        "path",
    ]
    assert [head.heading.unit.name for head in layout.heads[1:] if head.heading.unit] == [
        "mph",
        "deg",
        "deg",
        "mph",
        "deg",
    ]


def test_a_row_of_units_settles_units_and_open_words() -> None:
    layout = find_layout(
        rows_of(["Club", "Ball speed", "Height"], ["", "[m/s]", "[mm]"], ["Ash", "66", "3"]),
        frozenset(),
    )
    assert layout is not None
    assert layout.last_header_line == 2
    assert layout.heads[2].heading.meanings == ("strike high",)


def test_a_row_of_shots_is_no_second_row_of_headings() -> None:
    layout = find_layout(
        rows_of(["Club", "Ball speed", "Feel"], ["Ash", "--", "good"]), frozenset()
    )
    assert layout is not None
    assert layout.last_header_line == 1


def test_blank_and_repeated_headings_are_called_by_their_place() -> None:
    layout = find_layout(rows_of(["Club", "", "Spin", "Spin", "Launch"], *BALLS), frozenset())
    assert layout is not None
    assert [head.name for head in layout.heads] == [
        "Club",
        "column 2",
        "Spin",
        "column 4",
        "Launch",
    ]


@pytest.mark.parametrize(
    ("cells", "units"),
    [
        (["", "mph", "deg", "rpm"], True),
        (["#", "[mph]", "[°]", "(rpm)"], True),
        (["Ash", "148", "12", "2650"], False),
        (["club", "speed", "launch", "spin"], False),
        (["", "", "", ""], False),
        (["m", "148", "12", "2650"], False),
    ],
)
def test_rows_of_units_hold_units_alone(cells: list[str], units: bool) -> None:
    assert is_unit_row(cells) is units


def test_headings_without_known_words_and_no_headings_are_told_apart() -> None:
    named = unknown_layout(rows_of(["A", "B", "C"], ["1", "2", "3"], ["4", "5", "6"]))
    bare = unknown_layout(rows_of(["1", "2", "3"], ["4", "5", "6"]))
    assert named is not None
    assert bare is not None
    assert (named.last_header_line, named.heads[0].name) == (1, "A")
    assert (bare.last_header_line, bare.heads[0].name) == (0, "column 1")
    assert unknown_layout(rows_of(["only words"], ["and more"])) is None


def test_the_fingerprint_rests_on_headings_and_not_on_balls() -> None:
    one = find_layout(rows_of(ENGLISH, *BALLS), frozenset())
    two = find_layout(rows_of(ENGLISH, BALLS[1]), frozenset())
    other = find_layout(rows_of([*ENGLISH[:3], "Spin"], *BALLS), frozenset())
    assert one is not None
    assert two is not None
    assert other is not None
    assert one.fingerprint == two.fingerprint != other.fingerprint


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le"])
def test_delimiter_and_encoding_are_found(write: Writer, delimiter: str, encoding: str) -> None:
    path = write([ENGLISH, *BALLS], delimiter=delimiter, encoding=encoding, end="\r\n")
    dialect = find_dialect(path, frozenset())
    assert dialect.delimiter == delimiter
    assert dialect.layout.recognised == 4.0


def test_decimal_commas_do_not_pass_for_delimiters(write: Writer) -> None:
    rows = [ENGLISH, ["Ash", "148,2", "12,5", "2650"], ["Ash", "147,1", "13,5", "2710"]]
    assert find_dialect(write(rows, delimiter=";"), frozenset()).delimiter == ";"


@pytest.mark.parametrize("encoding", ["cp932", "cp949"])
def test_old_eastern_encodings_are_told_by_their_words(write: Writer, encoding: str) -> None:
    words = {
        "cp932": ["クラブ", "ボール初速(m/s)", "打ち出し角", "スピン量"],
        "cp949": ["클럽", "볼 스피드(m/s)", "발사각", "스핀량"],
    }
    path = write([words[encoding], *BALLS], encoding=encoding)
    assert find_dialect(path, frozenset()).encoding == encoding


def test_prose_is_no_table(write: Writer) -> None:
    with pytest.raises(IntakeError, match="no table of shots"):
        find_dialect(write([["Dear golfer"], ["it was a fine day"]]), frozenset())


@pytest.mark.parametrize("told", ["sep=;", "SEP=;"])
def test_the_line_that_tells_a_spreadsheet_the_delimiter_is_no_heading(
    write: Writer, told: str
) -> None:
    path = write([[told], ENGLISH, *BALLS], delimiter=";", encoding="utf-8-sig", end="\r\n")
    layout = find_dialect(path, frozenset()).layout
    assert layout.last_header_line == 2
    assert [head.name for head in layout.heads] == ENGLISH


def test_a_table_without_headings_has_no_fingerprint(write: Writer) -> None:
    assert find_dialect(write(BALLS), frozenset()).layout.fingerprint == ""
