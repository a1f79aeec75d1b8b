"""Golfers in the store: identity apart from what is hit, sealed under the golfer's own key."""

from dataclasses import asdict
from datetime import date
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, delete, insert, select, update

from loftwright.domain.golfer import Consents, Golfer, Hand, Identity, Wish
from loftwright.errors import ConflictError
from loftwright.physics.shaft_swing.players import Change, Release
from loftwright.store.base import Base
from loftwright.store.codec import home_of, home_text, identity_of, identity_text
from loftwright.store.free_text import FreeText
from loftwright.store.house_schema import openings
from loftwright.store.interface import Versioned
from loftwright.store.keys import KeyRing
from loftwright.store.schema import golfers, identities
from loftwright.store.schema import limits as limits_of_days
from loftwright.store.upsert import put
from loftwright.store.versions import change, missing, must_be_there

ERASED: Final = Identity(name="(erased)")
"""Who a golfer is whose key is gone."""


class Golfers(Base):
    """The store's golfers."""

    keys: KeyRing

    def add_golfer(self, golfer: Golfer, identity: Identity) -> None:
        """Keep a new golfer; identity goes under a fresh key of the golfer's own."""
        with self.reading() as connection:
            _must_be_new(connection, golfer.id)
        self.keys.make(golfer.id)
        sealed = self.keys.seal(golfer.id, identity_text(identity))
        columns = self._columns(golfer)
        with self.writing() as connection:
            _must_be_new(connection, golfer.id)
            connection.execute(insert(golfers).values(**columns, version=1))
            connection.execute(insert(identities).values(golfer=golfer.id, sealed=sealed))

    def golfer(self, golfer: str) -> Versioned[Golfer]:
        """Return a golfer."""
        with self.reading() as connection:
            row = connection.execute(select(golfers).where(golfers.c.id == golfer)).mappings()
            found = row.first()
        if found is None:
            raise missing("golfer", golfer)
        return self._golfer(found)

    def golfers(self) -> tuple[Versioned[Golfer], ...]:
        """Return every golfer, the newest first."""
        with self.reading() as connection:
            rows = connection.execute(select(golfers).order_by(golfers.c.came.desc())).mappings()
            return tuple(self._golfer(row) for row in rows)

    def change_golfer(self, golfer: Golfer, *, version: int) -> int:
        """Replace a golfer and return the new version."""
        with self.writing() as connection:
            must_be_there(connection, golfers.c.id, golfer.id, "golfer")
            return change(
                connection,
                golfers,
                golfer.id,
                self._columns(golfer),
                version=version,
                what="golfer",
            )

    def identity(self, golfer: str) -> Identity:
        """Return who a golfer is."""
        with self.reading() as connection:
            sealed = connection.scalar(
                select(identities.c.sealed).where(identities.c.golfer == golfer)
            )
        if sealed is None:
            raise missing("golfer", golfer)
        text = self.keys.opened(golfer, sealed)
        return ERASED if text is None else identity_of(text)

    def change_identity(self, golfer: str, identity: Identity) -> None:
        """Replace who a golfer is."""
        sealed = self._sealed(golfer, identity_text(identity))
        with self.writing() as connection:
            connection.execute(
                update(identities).where(identities.c.golfer == golfer).values(sealed=sealed)
            )

    def forget_golfer(self, golfer: str) -> None:
        """Destroy a golfer's key: what it sealed cannot be read any more, in no copy.

        Who opened the record goes too.
        """
        self.golfer(golfer)
        self.keys.forget(golfer)
        with self.writing() as connection:
            connection.execute(delete(openings).where(openings.c.golfer == golfer))

    def set_limits(self, golfer: str, day: date, limits: str) -> None:
        """Keep what the golfer's body allows on a day, apart from everything else."""
        sealed = self._sealed(golfer, limits)
        with self.writing() as connection:
            key = {"golfer": golfer, "day": day}
            connection.execute(put(connection, limits_of_days, key, {"sealed": sealed}))

    def limits(self, golfer: str, day: date) -> str:
        """Return the limits of a day; empty if nothing is kept."""
        days = limits_of_days.c
        wanted = (days.golfer == golfer) & (days.day == day)
        with self.reading() as connection:
            must_be_there(connection, golfers.c.id, golfer, "golfer")
            sealed = connection.scalar(select(days.sealed).where(wanted))
        return "" if sealed is None else self.keys.opened(golfer, sealed) or ""

    def forget_limits(self, before: date) -> int:
        """Remove limits of days before this one and return how many went."""
        with self.writing() as connection:
            return connection.execute(
                delete(limits_of_days).where(limits_of_days.c.day < before)
            ).rowcount

    def _sealed(self, golfer: str, text: str) -> bytes:
        self.golfer(golfer)
        return self.keys.seal(golfer, text)

    def _columns(self, golfer: Golfer) -> dict[str, Any]:
        typed = FreeText(self.keys, golfer.id).seal_golfer(golfer, home_text(golfer.home))
        return {
            "id": golfer.id,
            "hand": golfer.hand.value,
            "wish": golfer.wish.value,
            "change": golfer.change.value if golfer.change else None,
            "release": golfer.release.value if golfer.release else None,
            "ability": golfer.ability,
            "head_speed": golfer.head_speed,
            "minor": golfer.minor,
            "own": golfer.own,
            "merged_into": golfer.merged_into,
            **typed,
            **asdict(golfer.consents),
        }

    def _golfer(self, row: RowMapping) -> Versioned[Golfer]:
        words = FreeText(self.keys, row["id"])
        return Versioned(
            version=row["version"],
            value=Golfer(
                id=row["id"],
                hand=Hand(row["hand"]),
                goal=words.opened(row["goal"]),
                looks=words.opened(row["looks"]),
                wish=Wish(row["wish"]),
                change=Change(row["change"]) if row["change"] else None,
                release=Release(row["release"]) if row["release"] else None,
                ability=row["ability"],
                head_speed=row["head_speed"],
                minor=row["minor"],
                home=home_of(words.opened_home(row["home"])),
                own=row["own"],
                merged_into=row["merged_into"],
                consents=Consents(
                    keep=row["keep"],
                    contact=row["contact"],
                    publish=row["publish"],
                    shop_record=row["shop_record"],
                    given_on=row["given_on"],
                ),
            ),
        )


def _must_be_new(connection: Connection, golfer: str) -> None:
    if connection.scalar(select(golfers.c.came).where(golfers.c.id == golfer)):
        raise ConflictError(
            f"a golfer {golfer} is there already", place="golfer", mend="Change that one instead."
        )
