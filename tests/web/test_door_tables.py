"""Tables that the program writes run nothing, and its own readers give back what was typed."""

import csv
import io
from pathlib import Path

import pytest

from loftwright.domain.bag import BagClub, BagKind
from loftwright.domain.shot import Shot
from loftwright.domain.table_cell import as_typed
from loftwright.intake.bag_table import bag_csv, read_bag_table
from loftwright.intake.files import records
from loftwright.intake.own_table import write_shots
from loftwright.services.rack_out import rack_csv
from loftwright.services.rack_read import rows_in
from studios import a_head, studio_in_memory

EVIL = (
    '=HYPERLINK("http://evil.example","x")',
    "@SUM(1+1)*cmd|' /C calc'!A0",
    "-2+3",
    "+A1",
    "'=1",
    "-3.2",
)
RUNS = ("=", "+", "-", "@")


@pytest.mark.parametrize("name", EVIL)
def test_the_rack_comes_back_with_the_names_that_were_typed(name: str) -> None:
    studio = studio_in_memory()
    a_head(studio, name)
    text = rack_csv(studio)
    assert runs_nothing(text)
    told = [row.told["name"] for row in rows_in("rack.csv", text.encode()) if "name" in row.told]
    assert told == [name]


@pytest.mark.parametrize("name", EVIL)
def test_a_bag_comes_back_with_the_names_that_were_typed(name: str) -> None:
    text = bag_csv([BagClub(name=name, kind=BagKind.IRON, source=name)])
    assert runs_nothing(text)
    (club,) = read_bag_table(text.encode(), "bag.csv").clubs
    assert (club.name, club.source) == (name, name)


@pytest.mark.parametrize("name", EVIL)
def test_shots_come_back_under_the_club_that_was_typed(name: str, tmp_path: Path) -> None:
    write_shots(tmp_path / "shots.csv", [Shot(row=2, order=0, club=name)])
    assert runs_nothing((tmp_path / "shots.csv").read_text())
    head, row = records(tmp_path / "shots.csv", "utf-8", ",")
    assert row.cells[head.cells.index("club")] == name


def runs_nothing(text: str) -> bool:
    """Return whether no cell of a table begins with what a table program runs."""
    cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
    assert any(as_typed(cell) in EVIL for cell in cells)
    return not any(cell.startswith(RUNS) and cell != "-3.2" for cell in cells)
