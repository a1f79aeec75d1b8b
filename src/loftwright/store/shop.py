"""What the shop itself keeps: settings, who hits in which bay, and devices that were let in."""

from dataclasses import asdict
from datetime import datetime

from sqlalchemy import Column, Connection, RowMapping, Table, insert, select, update

from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import instant_of, instant_text
from loftwright.store.interface import PairedDevice, Versioned
from loftwright.store.schema import bays, fittings, paired_devices, settings
from loftwright.store.topics import BAY
from loftwright.store.upsert import put
from loftwright.store.versions import must_be_there, stale


class Shop(Base):
    """The store's settings, bays and paired devices."""

    def setting(self, name: str) -> Versioned[str]:
        """Return a setting's text; version 0 and empty if it was never set."""
        with self.reading() as connection:
            return _named(connection, settings, settings.c.text, name)

    def set_setting(self, name: str, text: str, *, version: int) -> int:
        """Replace a setting and return the new version."""
        with self.writing() as connection:
            return _set(connection, settings, settings.c.text, name, text, version)

    def settings(self) -> dict[str, str]:
        """Return every setting."""
        with self.reading() as connection:
            rows = connection.execute(select(settings.c.name, settings.c.text))
            return {row.name: row.text for row in rows}

    def hitting(self, bay: str) -> Versioned[str]:
        """Return the fitting whose golfer hits in a bay; version 0 and empty if nobody does."""
        with self.reading() as connection:
            return _named(connection, bays, bays.c.hitting, bay)

    def set_hitting(self, bay: str, fitting: str, *, version: int) -> int:
        """Say whose golfer hits in a bay and return the new version."""
        with self.writing() as connection:
            must_be_there(connection, fittings.c.id, fitting, "fitting")
            changed = _set(connection, bays, bays.c.hitting, bay, fitting, version)
            self.tell(connection, f"{BAY}{bay}", changed)
        return changed

    def pair(self, device: PairedDevice) -> None:
        """Let a device in."""
        told = asdict(device) | {
            "paired_at": instant_text(device.paired_at),
            "withdrawn_at": _text(device.withdrawn_at),
        }
        taken = (paired_devices.c.id == device.id) | (paired_devices.c.key_hash == device.key_hash)
        with self.writing() as connection:
            if connection.scalar(select(paired_devices.c.came).where(taken)):
                raise ConflictError(
                    f"a device {device.id}, or one with its key, was let in already",
                    place="device",
                    mend="Let it in anew, with a fresh key.",
                )
            connection.execute(insert(paired_devices).values(**told))

    def paired(self) -> tuple[PairedDevice, ...]:
        """Return every device that was ever let in, the newest first."""
        with self.reading() as connection:
            rows = connection.execute(
                select(paired_devices).order_by(paired_devices.c.came.desc())
            ).mappings()
            return tuple(_device(row) for row in rows)

    def withdraw(self, device: str, *, at: datetime) -> None:
        """Let a device in no more."""
        wanted = paired_devices.c.id == device
        with self.writing() as connection:
            must_be_there(connection, paired_devices.c.id, device, "device")
            connection.execute(
                update(paired_devices)
                .where(wanted, paired_devices.c.withdrawn_at.is_(None))
                .values(withdrawn_at=instant_text(at))
            )


def _named(connection: Connection, table: Table, column: Column[str], name: str) -> Versioned[str]:
    query = select(column, table.c.version).where(table.c.name == name)
    row = connection.execute(query).first()
    return (
        Versioned(value="", version=0) if row is None else Versioned(value=row[0], version=row[1])
    )


def _set(
    connection: Connection, table: Table, column: Column[str], name: str, text: str, version: int
) -> int:
    stands = _named(connection, table, column, name).version
    if stands != version:
        raise stale(name, stands, version)
    values = {column.name: text, "version": version + 1}
    connection.execute(put(connection, table, {"name": name}, values))
    return version + 1


def _text(at: datetime | None) -> str | None:
    return None if at is None else instant_text(at)


def _device(row: RowMapping) -> PairedDevice:
    until = row["withdrawn_at"]
    return PairedDevice(
        id=row["id"],
        name=row["name"],
        role=row["role"],
        key_hash=row["key_hash"],
        paired_at=instant_of(row["paired_at"]),
        withdrawn_at=None if until is None else instant_of(until),
    )
