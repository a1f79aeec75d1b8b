"""An erase reaches every table: a new table or column is covered here, or no golfer is in it."""

from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Final

import pytest

from erased_golfer import Erasable, others_alone, with_golfer
from loftwright.services.erasing import erase_everywhere
from loftwright.store.naming import metadata
from loftwright.store.schema import fittings, golfers
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store

NOBODYS: Final = frozenset({"paired_devices", "sleeves", "sleeve_settings"})
"""Tables of the house alone."""


@pytest.fixture
def erasable(tmp_path: Path) -> Iterator[Erasable]:
    made = with_golfer(others_alone(open_store(tmp_path), tmp_path))
    yield made
    made.studio.store.close()


def ids_of(erasable: Erasable) -> frozenset[str]:
    """Return what names the golfer: records, fittings, own club, its parts and their models."""
    rack = erasable.studio.store.rack()
    found = set(erasable.ids)
    for club in rack.assemblies.values():
        if club.owner in erasable.ids:
            models = {rack.pieces[one].model for one in (club.head, club.shaft)}
            found |= {club.id, club.head, club.shaft, *models}
    return frozenset(found)


def named(erasable: Erasable, ids: Collection[str]) -> frozenset[tuple[str, str]]:
    """Return every table and column in which one of these ids stands, also inside a text."""
    store = erasable.studio.store
    assert isinstance(store, SqlStore)
    found = set()
    with store.reading() as connection:
        for table in metadata.sorted_tables:
            for row in connection.execute(table.select()).mappings():
                for column, value in row.items():
                    if isinstance(value, str) and any(one in value for one in ids):
                        found.add((table.name, str(column)))
    return frozenset(found)


def test_the_golfer_is_in_every_table_before_and_in_none_after(erasable: Erasable) -> None:
    ids = ids_of(erasable)
    before = named(erasable, ids)
    assert {table for table, _ in before} == {one.name for one in metadata.sorted_tables} - NOBODYS
    erase_everywhere(erasable.studio, erasable.golfer)
    assert named(erasable, ids) == frozenset()


def test_every_column_that_leads_to_a_golfer_or_a_fitting_is_among_them(
    erasable: Erasable,
) -> None:
    leading = {
        (table.name, column.name)
        for table in metadata.sorted_tables
        for column in table.c
        for key in column.foreign_keys
        if key.column.table in (golfers, fittings)
    }
    assert ("place_moves", "golfer") in leading
    assert leading - named(erasable, ids_of(erasable)) == set()
