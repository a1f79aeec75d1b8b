"""The rack in the store: one table a kind, one numbering and one version over all."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, fields
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, Table, delete, insert, select, update

from loftwright.domain.golfer import Hand
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    RackItem,
    ShaftModel,
    Sleeve,
    SleeveSetting,
    State,
)
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import finite, instant_of, instant_text
from loftwright.store.interface import Versioned
from loftwright.store.schema import (
    assemblies,
    head_models,
    items,
    pieces,
    shaft_models,
    sleeve_settings,
    sleeves,
)
from loftwright.store.versions import missing, must_be_there, stale

KINDS: Final[dict[type, tuple[str, Table]]] = {
    HeadModel: ("head", head_models),
    ShaftModel: ("shaft", shaft_models),
    Piece: ("piece", pieces),
    Sleeve: ("sleeve", sleeves),
    Assembly: ("assembly", assemblies),
}
"""Name and table of each kind of item."""


class RackItems(Base):
    """The store's rack."""

    def put(self, item: RackItem, *, version: int | None) -> int:
        """Keep an item of the rack, new without a version, and return its version."""
        with self.writing() as connection:
            return put_item(connection, item, version)

    def put_together(self, items: Sequence[tuple[RackItem, int | None]]) -> None:
        """Keep items of the rack, each after what it names: all of them or none."""
        with self.writing() as connection:
            for item, version in items:
                put_item(connection, item, version)

    def item(self, item: str) -> Versioned[RackItem]:
        """Return an item of the rack."""
        with self.reading() as connection:
            found = connection.execute(select(items).where(items.c.id == item)).mappings().first()
            if found is None:
                raise missing("item", item)
            table = next(table for kind, table in KINDS.values() if kind == found["kind"])
            row = connection.execute(select(table).where(table.c.id == item)).mappings().one()
            value = _READERS[found["kind"]](row, _settings(connection))
        return Versioned(value=value, version=found["version"])

    def rack(self) -> Rack:
        """Return the whole rack."""
        with self.reading() as connection:
            settings = _settings(connection)
            found = {
                kind: {value.id: value for value in _all(connection, kind, table, settings)}
                for kind, table in KINDS.values()
            }
        return Rack(
            heads=found["head"],
            shafts=found["shaft"],
            pieces=found["piece"],
            sleeves=found["sleeve"],
            assemblies=found["assembly"],
        )


Settings = dict[str, tuple[SleeveSetting, ...]]


def put_item(connection: Connection, item: RackItem, version: int | None) -> int:
    """Keep an item within a transaction, new without a version, and return its version.

    Raises
    ------
    NotFoundError
        If it is not there, or names what is not.
    ConflictError
        If it is there already, or stands at another version.
    """
    kind, table = KINDS[type(item)]
    known = connection.execute(
        select(items.c.version, items.c.kind).where(items.c.id == item.id)
    ).first()
    stands = None if known is None else known.version
    _check_named(connection, item)
    if version is None:
        if stands is not None:
            raise ConflictError(
                f"an item {item.id} is there already",
                place="item",
                mend="Change that one instead.",
            )
        connection.execute(insert(items).values(id=item.id, kind=kind, version=1))
        connection.execute(insert(table).values(**_columns(item)))
    elif stands is None:
        raise missing("item", item.id)
    elif stands != version:
        raise stale("item", stands, version)
    elif known is not None and known.kind != kind:
        raise ConflictError(
            f"{item.id} is a {known.kind} and cannot become a {kind}",
            place="item",
            mend="Keep it as a new item.",
        )
    else:
        connection.execute(update(items).where(items.c.id == item.id).values(version=version + 1))
        connection.execute(update(table).where(table.c.id == item.id).values(**_columns(item)))
    if isinstance(item, Sleeve):
        _write_settings(connection, item)
    return 1 if version is None else version + 1


def _all(connection: Connection, kind: str, table: Table, settings: Settings) -> Iterator[Any]:
    rows = connection.execute(
        select(table).join(items, items.c.id == table.c.id).order_by(items.c.came)
    ).mappings()
    for row in rows:
        yield _READERS[kind](row, settings)


def _settings(connection: Connection) -> Settings:
    rows = connection.execute(
        select(sleeve_settings).order_by(sleeve_settings.c.sleeve, sleeve_settings.c.place)
    ).mappings()
    found: Settings = {}
    for row in rows:
        one = SleeveSetting(name=row["name"], bore=row["bore"], azimuth=row["azimuth"])
        found[row["sleeve"]] = (*found.get(row["sleeve"], ()), one)
    return found


def _write_settings(connection: Connection, sleeve: Sleeve) -> None:
    connection.execute(delete(sleeve_settings).where(sleeve_settings.c.sleeve == sleeve.id))
    connection.execute(
        insert(sleeve_settings),
        [
            {"sleeve": sleeve.id, "place": place, **asdict(one)}
            for place, one in enumerate(sleeve.settings)
        ],
    )


def _check_named(connection: Connection, item: RackItem) -> None:
    if isinstance(item, Piece):
        must_be_there(connection, items.c.id, item.model, "model")
        if item.sleeve is not None:
            must_be_there(connection, sleeves.c.id, item.sleeve, "sleeve")
    elif isinstance(item, Assembly):
        for piece in (item.head, item.shaft):
            must_be_there(connection, pieces.c.id, piece, "piece")


def _columns(item: RackItem) -> dict[str, Any]:
    told = {one.name: getattr(item, one.name) for one in fields(item) if one.name != "settings"}
    for name, value in told.items():
        if isinstance(value, float):
            finite(name, value)
    if isinstance(item, Piece) and item.locked_until is not None:
        told["locked_until"] = instant_text(item.locked_until)
    return told


def _head(row: RowMapping, _: Settings) -> RackItem:
    return HeadModel(**{**row, "hand": Hand(row["hand"])})


def _shaft(row: RowMapping, _: Settings) -> RackItem:
    return ShaftModel(**row)


def _piece(row: RowMapping, _: Settings) -> RackItem:
    until = row["locked_until"]
    return Piece(
        **{
            **row,
            "state": State(row["state"]),
            "locked_until": None if until is None else instant_of(until),
        }
    )


def _sleeve(row: RowMapping, settings: Settings) -> RackItem:
    return Sleeve(**row, settings=settings[row["id"]])


def _assembly(row: RowMapping, _: Settings) -> RackItem:
    return Assembly(**row)


_READERS: Final[dict[str, Callable[[RowMapping, Settings], RackItem]]] = {
    "head": _head,
    "shaft": _shaft,
    "piece": _piece,
    "sleeve": _sleeve,
    "assembly": _assembly,
}
