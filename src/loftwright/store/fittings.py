"""Fittings in the store."""

from dataclasses import asdict

from sqlalchemy import Connection, RowMapping, insert, select

from loftwright.domain.fitting import Fitting
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.interface import Versioned
from loftwright.store.schema import fittings, golfers
from loftwright.store.versions import change, missing, must_be_there


class Fittings(Base):
    """The store's fittings."""

    def open_fitting(self, fitting: Fitting) -> None:
        """Keep a new fitting."""
        with self.writing() as connection:
            _check_named(connection, fitting)
            if connection.scalar(select(fittings.c.came).where(fittings.c.id == fitting.id)):
                raise ConflictError(
                    f"a fitting {fitting.id} is there already",
                    place="fitting",
                    mend="Change that one instead.",
                )
            connection.execute(insert(fittings).values(**asdict(fitting), version=1))

    def fitting(self, fitting: str) -> Versioned[Fitting]:
        """Return a fitting."""
        with self.reading() as connection:
            rows = connection.execute(select(fittings).where(fittings.c.id == fitting)).mappings()
            found = rows.first()
        if found is None:
            raise missing("fitting", fitting)
        return _fitting(found)

    def fittings(self) -> tuple[Versioned[Fitting], ...]:
        """Return every fitting, the newest first."""
        with self.reading() as connection:
            rows = connection.execute(select(fittings).order_by(fittings.c.came.desc())).mappings()
            return tuple(_fitting(row) for row in rows)

    def change_fitting(self, fitting: Fitting, *, version: int) -> int:
        """Replace a fitting and return the new version."""
        with self.writing() as connection:
            must_be_there(connection, fittings.c.id, fitting.id, "fitting")
            _check_named(connection, fitting)
            return change(
                connection,
                fittings,
                fitting.id,
                asdict(fitting),
                version=version,
                what="fitting",
            )


def _check_named(connection: Connection, fitting: Fitting) -> None:
    must_be_there(connection, golfers.c.id, fitting.golfer, "golfer")
    if fitting.partner is not None:
        must_be_there(connection, fittings.c.id, fitting.partner, "fitting")


def _fitting(row: RowMapping) -> Versioned[Fitting]:
    told = {name: value for name, value in row.items() if name not in {"came", "version"}}
    return Versioned(value=Fitting(**told), version=row["version"])
