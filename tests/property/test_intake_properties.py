"""What must hold of any table: nothing crashes, nothing is lost, order of columns is nothing."""

import tempfile
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.shot import Shot
from loftwright.errors import LoftwrightError
from loftwright.intake.cells import read_cell
from loftwright.intake.own_table import shot_table_text, write_shots
from loftwright.intake.settle import read_keep, read_setting
from loftwright.intake.table import ReadOptions, read_shots
from loftwright.intake.words import read_heading
from shot_tables import invent_drives, own_rows

WORDS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufffd"), max_size=12
)
TABLE_TEXT = st.text(
    st.one_of(
        st.sampled_from(list('0123456789.,;-+"\t\n| RLNaif°')),
        st.characters(exclude_categories=["Cs"]),
    ),
    max_size=400,
)
HEADINGS = st.sampled_from(
    [
        *("Ball speed (mph)", "Launch", "Spin", "Club", "No", "Carry (m)", "Path (right +)"),
        *("Gizmo", "Strike toe mm", "Player", "Time", "", "Speed", "Side spin", "Back spin"),
        *("read", "Face", "Axis (rpm)", "Face to path", "Ball speed", "Strike high"),
    ]
)
CELLS = st.one_of(
    st.sampled_from(
        [
            *("", "--", "12.3 R", "L 4", "148,2", "2.650", "nan", "1e400", "Ash", "7 iron"),
            *("Average", "10:02", "2026-05-01", "12' 3\"", "no", "L", "-0", "99999", '"', "=1+1"),
        ]
    ),
    st.floats(-300, 3000).map(lambda value: f"{value:.1f}"),
    WORDS,
)


def read_text(text: str | bytes, options: ReadOptions | None = None) -> None:
    """Read a file of this content; only our own errors may leave, and it stays as it was."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shots.csv"
        content = text if isinstance(text, bytes) else text.encode("utf-8")
        path.write_bytes(content)
        try:
            table = read_shots(path, options or ReadOptions())
        except LoftwrightError:
            pass
        else:
            assert table.read == len(table.shots) + len(table.refused) + len(table.duplicates)
            rows = [shot.row for shot in table.shots]
            rows += [refusal.row for refusal in table.refused]
            rows += [double.row for double in table.duplicates]
            assert len(set(rows)) == table.read
            assert [shot.order for shot in table.shots] == list(range(len(table.shots)))
        assert path.read_bytes() == content


@given(text=TABLE_TEXT)
@settings(max_examples=150)
def test_any_text_is_read_or_refused(text: str) -> None:
    read_text(text)


@given(content=st.binary(max_size=400))
@settings(max_examples=100)
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    read_text(content)


@given(
    headings=st.lists(HEADINGS, min_size=1, max_size=7),
    rows=st.lists(st.lists(CELLS, max_size=8), max_size=12),
    delimiter=st.sampled_from([",", ";", "\t", "|"]),
    hand=st.sampled_from(["right", "left"]),
)
@settings(max_examples=250)
def test_any_cells_under_known_headings_are_read_or_refused(
    headings: list[str], rows: list[list[str]], delimiter: str, hand: str
) -> None:
    text = "\n".join(delimiter.join(row) for row in [headings, *rows])
    read_text(text, ReadOptions(hand="left" if hand == "left" else "right"))


@given(text=st.text(max_size=60))
@settings(max_examples=200)
def test_any_option_has_a_meaning_or_is_refused(text: str) -> None:
    for read in (read_setting, read_keep):
        with suppress(LoftwrightError):
            read(text)
    read_heading(text)
    cell = read_cell(text)
    assert cell.value is None or np.isfinite(cell.value)


def quantity(low: float, high: float, digits: int, unit: float) -> st.SearchStrategy[float]:
    """Return values on the grid of digits that our own table keeps."""
    steps = st.integers(round(low * 10**digits), round(high * 10**digits))
    return steps.map(lambda step: step / 10**digits * unit)


@st.composite
def shots(draw: st.DrawFn) -> list[Shot]:
    """Return shots of one golfer, any of whose numbers may be missing."""
    count = draw(st.integers(1, 12))
    clubs = st.sampled_from(["Own", "Ash", 'Birch "x"', "Käfer, 60"])
    dealt = []
    for order in range(count):

        def maybe(low: float, high: float, unit: float, digits: int = 1) -> float | None:
            return draw(st.none() | quantity(low, high, digits, unit))

        speed = draw(quantity(100, 180, 1, MILE_PER_HOUR))
        dealt.append(
            Shot(
                row=order + 2,
                order=order,
                club=draw(clubs),
                ball=str(order + 1),
                ball_speed=speed,
                launch=maybe(5, 20, DEGREE),
                direction=maybe(-8, 8, DEGREE),
                spin=maybe(1500, 5000, REVOLUTION_PER_MINUTE, 0),
                axis=maybe(-30, 30, DEGREE),
                head_speed=draw(st.none() | st.just(round(speed / 1.45 / 0.44704, 1) * 0.44704)),
                attack=maybe(-6, 8, DEGREE),
                path=maybe(-9, 9, DEGREE),
                face=maybe(-9, 9, DEGREE),
                strike_toe=maybe(-20, 20, 1e-3),
                strike_high=maybe(-15, 15, 1e-3),
                mark_set=draw(st.none() | st.sampled_from(["1", "A"])),
                carry=draw(st.none() | st.just(round(speed * 3.0 / 0.9144, 1) * YARD)),
            )
        )
    return dealt


@given(dealt=shots())
@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow])
def test_our_own_table_comes_back_as_it_was_written(dealt: list[Shot]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shots.csv"
        write_shots(path, dealt)
        table = read_shots(path, ReadOptions())
        assert shot_table_text(table.shots) == path.read_text(encoding="utf-8")
    for back, shot in zip(table.shots, dealt, strict=True):
        assert (back.row, back.order, back.club, back.ball) == (
            shot.row,
            shot.order,
            shot.club,
            shot.ball,
        )
        assert back.ball_speed == pytest.approx(shot.ball_speed, rel=1e-12)
        for name in ("launch", "direction", "spin", "axis", "face", "strike_toe", "carry"):
            here, there = getattr(back, name), getattr(shot, name)
            assert (here is None) == (there is None)
            assert here is None or here == pytest.approx(there, rel=1e-12, abs=1e-15)


@given(order=st.permutations(range(17)), seed=st.integers(1, 5))
@settings(max_examples=30)
def test_the_order_of_columns_changes_nothing(order: list[int], seed: int) -> None:
    rows = own_rows(invent_drives(18, seed))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shots.csv"
        tables = []
        for places in (range(17), order):
            lines = [",".join(str(row[place]) for place in places) for row in rows]
            path.write_text("\n".join(lines) + "\n")
            tables.append(read_shots(path, ReadOptions()))
    assert tables[0].shots == tables[1].shots
    assert tables[0].warnings == tables[1].warnings


@given(order=st.permutations(range(18)))
@settings(max_examples=20)
def test_rows_that_keep_their_ball_numbers_keep_their_order(order: list[int]) -> None:
    header, *body = own_rows(invent_drives(18))
    found = []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shots.csv"
        for places in (range(18), order):
            lines = [",".join(map(str, row)) for row in [header, *(body[p] for p in places)]]
            path.write_text("\n".join(lines) + "\n")
            table = read_shots(path, ReadOptions(columns=("ball=ball",)))
            found.append([replace(shot, row=0) for shot in table.shots])
    assert found[0] == found[1]
