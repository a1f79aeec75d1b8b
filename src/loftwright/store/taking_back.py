"""What came into the rack together goes again, and what was changed is as it was."""

from typing import Final

from sqlalchemy import Connection, Table, delete, select

from loftwright.domain.inspection import Inspection
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import instant_text
from loftwright.store.interface import TakenBack
from loftwright.store.rack import KINDS, put_item
from loftwright.store.schema import (
    assemblies,
    bench_days,
    bench_sheets,
    head_models,
    inspections,
    items,
    measured_cards,
    pieces,
    profiles,
    shaft_models,
    sleeve_settings,
    sleeves,
)
from loftwright.store.versions import missing, stale

_PARTS: Final = (
    (pieces, "model"),
    (pieces, "sleeve"),
    (assemblies, "head"),
    (assemblies, "shaft"),
    (inspections, "piece"),
    (profiles, "piece"),
    (bench_sheets, "piece"),
    (bench_days, "piece"),
    (measured_cards, "item"),
)
"""Columns in which something names what it is made of, or what it was found of."""

_LINES: Final = ((head_models, "replaces"), (shaft_models, "replaces"))
"""Columns in which a model names another, in any order."""


class TakingBack(Base):
    """The store's way back from what came in together."""

    def take_back(self, taken: TakenBack) -> None:
        """Remove what came and put back what was changed: all of it or nothing."""
        with self.writing() as connection:
            for item, version in taken.items:
                _check_version(connection, item, version)
            for profile in taken.profiles:
                if not connection.execute(
                    delete(profiles).where(profiles.c.id == profile)
                ).rowcount:
                    raise missing("profile", profile)
            for look in taken.looks:
                _remove_look(connection, look)
            for before, version in taken.changed:
                put_item(connection, before, version)
            gone = [item for item, _ in reversed(taken.items)]
            for item in gone:
                _remove_row(connection, item)
            for item in gone:
                _check_unnamed(connection, item, _LINES)
                connection.execute(delete(items).where(items.c.id == item))


def _check_version(connection: Connection, item: str, version: int) -> None:
    stands = connection.scalar(select(items.c.version).where(items.c.id == item))
    if stands is None:
        raise missing("item", item)
    if stands != version:
        raise stale("item", stands, version)


def _remove_look(connection: Connection, look: Inspection) -> None:
    came = connection.scalar(
        select(inspections.c.came)
        .where(
            inspections.c.piece == look.piece,
            inspections.c.at == instant_text(look.at),
            inspections.c.balls == look.balls,
            inspections.c.finding == look.finding.value,
            inspections.c.words == look.words,
            inspections.c.by == look.by,
        )
        .order_by(inspections.c.came.desc())
    )
    if came is None:
        raise missing("look", look.piece)
    connection.execute(delete(inspections).where(inspections.c.came == came))


def _remove_row(connection: Connection, item: str) -> None:
    """Remove what an item tells, where nothing that stays names it."""
    kind = connection.scalar(select(items.c.kind).where(items.c.id == item))
    table = next(table for name, table in KINDS.values() if name == kind)
    _check_unnamed(connection, item, _PARTS)
    if table is sleeves:
        connection.execute(delete(sleeve_settings).where(sleeve_settings.c.sleeve == item))
    connection.execute(delete(table).where(table.c.id == item))


def _check_unnamed(
    connection: Connection, item: str, columns: tuple[tuple[Table, str], ...]
) -> None:
    for table, name in columns:
        column = table.c[name]
        if connection.scalar(select(column).where(column == item)) is not None:
            raise ConflictError(
                f"something that came later names {item}",
                place="item",
                mend="Take that away from it first.",
            )
