"""What becomes known of pieces: inspections, and shafts' measured profiles."""

import json
from dataclasses import fields
from typing import Any, Final

import numpy as np
from sqlalchemy import Connection, Engine, RowMapping, insert, select, update

from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.profile import MeasuredProfile
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import finite, instant_of, instant_text
from loftwright.store.schema import inspections, pieces, profiles
from loftwright.store.versions import missing, must_be_there

_COLUMNS: Final = ("id", "piece", "day", "set_aside")


class Pieces(Base):
    """The store's inspections and profiles."""

    def __init__(self, engine: Engine, place: str) -> None:
        super().__init__(engine, place)
        self._read: dict[str, MeasuredProfile] = {}

    def inspect(self, inspection: Inspection) -> None:
        """Keep a look at a piece."""
        with self.writing() as connection:
            must_be_there(connection, pieces.c.id, inspection.piece, "piece")
            connection.execute(
                insert(inspections).values(
                    piece=inspection.piece,
                    at=instant_text(inspection.at),
                    balls=inspection.balls,
                    finding=inspection.finding.value,
                    words=inspection.words,
                    by=inspection.by,
                )
            )

    def inspections(self) -> dict[str, tuple[Inspection, ...]]:
        """Return every inspection by its piece, in the order in which they came."""
        found: dict[str, tuple[Inspection, ...]] = {}
        with self.reading() as connection:
            rows = connection.execute(select(inspections).order_by(inspections.c.came)).mappings()
            for row in rows:
                one = Inspection(
                    piece=row["piece"],
                    at=instant_of(row["at"]),
                    balls=row["balls"],
                    finding=Finding(row["finding"]),
                    words=row["words"],
                    by=row["by"],
                )
                found[one.piece] = (*found.get(one.piece, ()), one)
        return found

    def keep_profile(self, profile: MeasuredProfile) -> None:
        """Keep a measured profile of a shaft's sample."""
        with self.writing() as connection:
            must_be_there(connection, pieces.c.id, profile.piece, "piece")
            if connection.scalar(select(profiles.c.came).where(profiles.c.id == profile.id)):
                raise ConflictError(
                    f"a profile {profile.id} is there already",
                    place="profile",
                    mend="Keep it under a new id.",
                )
            connection.execute(
                insert(profiles).values(
                    id=profile.id,
                    piece=profile.piece,
                    day=profile.day,
                    told=_told(profile),
                    set_aside=profile.set_aside,
                )
            )

    def set_profile_aside(self, profile: str, reason: str) -> None:
        """Say why a profile does not stand; an empty reason lets it stand again."""
        with self.writing() as connection:
            if connection.scalar(select(profiles.c.came).where(profiles.c.id == profile)) is None:
                raise missing("profile", profile)
            connection.execute(
                update(profiles).where(profiles.c.id == profile).values(set_aside=reason)
            )

    def profiles(self) -> dict[str, tuple[MeasuredProfile, ...]]:
        """Return every measured profile by its piece, in the order in which they came."""
        found: dict[str, tuple[MeasuredProfile, ...]] = {}
        with self.reading() as connection:
            columns = [profiles.c[name] for name in _COLUMNS]
            rows = connection.execute(select(*columns).order_by(profiles.c.came)).mappings().all()
            for row in rows:
                one = self._profile(connection, row)
                found[one.piece] = (*found.get(one.piece, ()), one)
        return found

    def _profile(self, connection: Connection, row: RowMapping) -> MeasuredProfile:
        """Return a profile, its text read once: all but `set_aside` never changes."""
        known = self._read.get(row["id"])
        if known is None or known.set_aside != row["set_aside"]:
            text = connection.scalar(select(profiles.c.told).where(profiles.c.id == row["id"]))
            known = MeasuredProfile(**row, **json.loads(text or "{}"))
            self._read[row["id"]] = known
        return known


def _told(profile: MeasuredProfile) -> str:
    told: dict[str, Any] = {}
    for one in fields(profile):
        value = getattr(profile, one.name)
        if one.name in _COLUMNS or value is None:
            continue
        if isinstance(value, float):
            finite(one.name, value)
        told[one.name] = value.tolist() if isinstance(value, np.ndarray) else value
    return json.dumps(told, allow_nan=False)
