"""Which fittings are being written to, whichever process writes."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import Connection, func, select, true

from loftwright.domain.acts import Closed
from loftwright.store.base import Base
from loftwright.store.codec import instant_of, instant_text, kind_of
from loftwright.store.interface import Busy
from loftwright.store.schema import acts, appends, fittings


class AtWork(Base):
    """The store's fittings that are under way."""

    def busy(self, since: datetime, among: Collection[str] | None = None) -> tuple[Busy, ...]:
        """Return the fittings that are not closed and were written to since, the newest first.

        Of all fittings, or among those that are named.
        """
        with self.reading() as connection:
            return busy_in(connection, since, among)

    def newest_instant(self) -> str:
        """Return the latest instant at which anything was written to a record; empty if none."""
        with self.reading() as connection:
            return connection.scalar(select(func.max(appends.c.at))) or ""


def busy_in(
    connection: Connection, since: datetime, among: Collection[str] | None = None
) -> tuple[Busy, ...]:
    """Return the fittings that are not closed and were written to since, the newest first.

    Reads only what every revision of the schema has, so that it answers before one is changed.
    """
    newest = (
        select(appends.c.fitting, func.max(appends.c.first).label("first"))
        .where(true() if among is None else appends.c.fitting.in_(among))
        .group_by(appends.c.fitting)
        .subquery()
    )
    closing = (
        select(acts.c.fitting)
        .where(
            acts.c.fitting == newest.c.fitting,
            acts.c.first == newest.c.first,
            acts.c.kind == kind_of(Closed),
        )
        .exists()
    )
    query = (
        select(fittings.c.id, fittings.c.bay, fittings.c.fitter, appends.c.at, appends.c.by)
        .join(newest, newest.c.fitting == fittings.c.id)
        .join(
            appends,
            (appends.c.fitting == newest.c.fitting) & (appends.c.first == newest.c.first),
        )
        .where(appends.c.at >= instant_text(since), ~closing)
        .order_by(appends.c.at.desc(), fittings.c.id)
    )
    return tuple(
        Busy(fitting=row.id, bay=row.bay, fitter=row.fitter, at=instant_of(row.at), by=row.by)
        for row in connection.execute(query)
    )
