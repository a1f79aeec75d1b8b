"""What a fitting may hold, refused while it is read."""

import tracemalloc
from pathlib import Path

import pytest

from loftwright.errors import IntakeError
from loftwright.intake.body import MAX_BALLS
from loftwright.intake.own_table import write_shots
from loftwright.intake.table import ReadOptions, read_shots
from loftwright.training.deal import DealOptions, deal
from shot_tables import Drive, Rows, Writer, own_rows

ABILITIES = ("tour", "low", "mid", "high", "senior")


def many(drives: list[Drive], count: int) -> Rows:
    """Return our own table with this many balls, each with a number of its own."""
    header, *body = own_rows(drives)
    rows: Rows = [header]
    for ball in range(count):
        rows.append([ball + 1, *body[ball % len(body)][1:]])
    return rows


def test_a_fitting_of_two_thousand_balls_is_read(write: Writer, drives: list[Drive]) -> None:
    assert len(read_shots(write(many(drives, MAX_BALLS)), ReadOptions()).shots) == MAX_BALLS


def test_one_ball_more_is_refused(write: Writer, drives: list[Drive]) -> None:
    with pytest.raises(IntakeError, match="2,001 balls"):
        read_shots(write(many(drives, MAX_BALLS + 1)), ReadOptions())


def test_a_hundred_thousand_rows_are_refused_while_they_are_read(
    write: Writer, drives: list[Drive]
) -> None:
    path = write(many(drives, 100_000))
    with pytest.raises(IntakeError, match="more than 2,000 balls") as caught:
        read_shots(path, ReadOptions())
    assert "row 2502" in caught.value.place
    only = ReadOptions(only=("club=Own", "ball=3"))
    table = read_shots(path, only)
    assert (table.read, len(table.shots)) == (100_000, 1)


def test_more_clubs_than_a_fitting_has_are_refused(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives * 10)
    for place, row in enumerate(rows[1:]):
        row[0], row[2] = place, f"Club {place % 25}"
    with pytest.raises(IntakeError, match="25 clubs"):
        read_shots(write(rows), ReadOptions())
    for place, row in enumerate(rows[1:]):
        row[2] = f"Club {place}"
    with pytest.raises(IntakeError, match="more than 24 clubs"):
        read_shots(write(rows), ReadOptions())


@pytest.mark.parametrize("filling", ["rows", "one line", "an open quotation"])
def test_a_large_file_is_read_as_a_stream_and_left_early(
    tmp_path: Path, drives: list[Drive], filling: str
) -> None:
    """What is held of 24 MB is the first megabyte, that tells the encoding, and a few rows."""
    header, *rows = [",".join(map(str, row)) for row in own_rows(drives)]
    block = {
        "rows": "\n".join(rows) + "\n",
        "one line": "1" * 10_000,
        "an open quotation": '"' + "1,\n" * 4_000,
    }[filling].encode()
    path = tmp_path / "large.csv"
    with path.open("wb") as file:
        file.write(header.encode() + b"\n")
        for _ in range(24_000_000 // len(block)):
            file.write(block)
    tracemalloc.start()
    try:
        with pytest.raises(IntakeError, match=r"large\.csv"):
            read_shots(path, ReadOptions())
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < 8_000_000


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("ability", ABILITIES)
def test_dealt_tables_raise_no_doubt(ability: str, hand: str, tmp_path: Path) -> None:
    """Sixteen visits of each golfer, ghosts, misreads and marks of unknown order among them."""
    path = tmp_path / "shots.csv"
    for seed in range(1, 17):
        dealt = deal(
            DealOptions(
                seed=seed,
                golfer=ability,
                hand=hand,
                balls=20 + seed,
                ghosts=seed % 3,
                misreads=seed % 4,
                unordered_marks=3 * (seed % 2),
            )
        )
        write_shots(path, dealt.shots)
        table = read_shots(path, ReadOptions(hand="left" if hand == "left" else "right"))
        assert table.read == len(dealt.shots) == len(table.shots)
        assert [shot.club for shot in table.shots] == [shot.club for shot in dealt.shots]
