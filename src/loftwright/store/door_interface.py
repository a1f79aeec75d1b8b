"""What a store keeps of the studio's door: devices, their locks, and who opened a record."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Protocol

from loftwright.domain.opening import Opening


@dataclass(frozen=True, slots=True, kw_only=True)
class PairedDevice:
    """A tablet, feed or screen that was let in.

    Attributes
    ----------
    role : str
        fitter, workshop or screen.
    key_hash : str
        SHA-256 of its random key.
    pin : str, optional
        What locks it, as text; None if nothing does.
    """

    id: str
    name: str
    role: str
    key_hash: str
    paired_at: datetime
    withdrawn_at: datetime | None = None
    pin: str | None = None


class DoorStore(Protocol):
    """The part of the studio's memory that the door needs; it raises as `Store` does."""

    def pair(self, device: PairedDevice) -> None:
        """Let a device in."""

    def paired(self) -> tuple[PairedDevice, ...]:
        """Return every device that was ever let in, the newest first."""

    def withdraw(self, device: str, *, at: datetime) -> None:
        """Let a device in no more."""

    def change_pin(self, device: str, pin: str | None, *, was: str | None) -> None:
        """Replace what locks a device; raises `ConflictError` if it is not what it was."""

    def keep_opening(self, opening: Opening, *, within: timedelta) -> bool:
        """Keep that a record was opened, and return whether it is new.

        It is not if the same device opened the same golfer's record so shortly before.
        """

    def openings(self, golfer: str, *, most: int) -> tuple[Opening, ...]:
        """Return who opened a golfer's record or one merged into it, the last one first."""

    def forget_openings(self, before: datetime) -> int:
        """Remove openings from before an instant and return how many went."""
