"""Devices that were let in, what locks them, and who opened a golfer's record."""

from dataclasses import asdict
from datetime import datetime, timedelta

from sqlalchemy import RowMapping, delete, func, insert, select, update

from loftwright.domain.opening import Opening
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import instant_of, instant_text
from loftwright.store.door_interface import PairedDevice
from loftwright.store.house_schema import openings
from loftwright.store.schema import fittings, golfers, paired_devices
from loftwright.store.topics import DEVICES
from loftwright.store.versions import must_be_there


class Door(Base):
    """The store's paired devices and openings of records."""

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
            self.tell(connection, DEVICES, 0)

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
            self.tell(connection, DEVICES, 0)

    def change_pin(self, device: str, pin: str | None, *, was: str | None) -> None:
        """Replace what locks a device; raises `ConflictError` if it is not what it was."""
        wanted = paired_devices.c.id == device
        with self.writing() as connection:
            must_be_there(connection, paired_devices.c.id, device, "device")
            if connection.scalar(select(paired_devices.c.pin).where(wanted)) != was:
                raise ConflictError(
                    "the lock of this device was changed meanwhile",
                    place="pin",
                    mend="Look at it again, and change it then.",
                )
            connection.execute(update(paired_devices).where(wanted).values(pin=pin))
            self.tell(connection, DEVICES, 0)

    def keep_opening(self, opening: Opening, *, within: timedelta) -> bool:
        """Keep that a record was opened, and return whether it is new."""
        at = instant_text(opening.at)
        same = (openings.c.golfer == opening.golfer) & (openings.c.device == opening.device)
        near = select(func.count()).where(
            same,
            openings.c.at > instant_text(opening.at - within),
            openings.c.at < instant_text(opening.at + within),
        )
        with self.writing() as connection:
            must_be_there(connection, golfers.c.id, opening.golfer, "golfer")
            if opening.fitting is not None:
                must_be_there(connection, fittings.c.id, opening.fitting, "fitting")
            if connection.scalar(near):
                return False
            connection.execute(insert(openings).values(**asdict(opening) | {"at": at}))
            return True

    def openings(self, golfer: str, *, most: int) -> tuple[Opening, ...]:
        """Return who opened a golfer's record or one merged into it, the last one first."""
        theirs = select(golfers.c.id).where(
            (golfers.c.id == golfer) | (golfers.c.merged_into == golfer)
        )
        with self.reading() as connection:
            must_be_there(connection, golfers.c.id, golfer, "golfer")
            rows = connection.execute(
                select(openings)
                .where(openings.c.golfer.in_(theirs))
                .order_by(openings.c.at.desc(), openings.c.came.desc())
                .limit(most)
            ).mappings()
            return tuple(_opening(row) for row in rows)

    def forget_openings(self, before: datetime) -> int:
        """Remove openings from before an instant and return how many went."""
        with self.writing() as connection:
            return connection.execute(
                delete(openings).where(openings.c.at < instant_text(before))
            ).rowcount


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
        pin=row["pin"],
    )


def _opening(row: RowMapping) -> Opening:
    return Opening(
        golfer=row["golfer"],
        fitting=row["fitting"],
        device=row["device"],
        by=row["by"],
        page=row["page"],
        at=instant_of(row["at"]),
    )
