"""The training room: a studio in a folder of its own, where nothing is real."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import Final
from zoneinfo import ZoneInfo

from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard
from loftwright.services.settings import Settings, change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store

FOLDER: Final = "training"
BAY: Final = "Training bay"
METER: Final = DeviceCard(
    name="Training meter (invented)",
    origins={
        **dict.fromkeys(
            ("ball speed", "launch", "direction", "spin", "axis", "head speed"), Origin.MEASURED
        ),
        **dict.fromkeys(("attack", "path", "face"), Origin.MEASURED),
        "carry": Origin.CALCULATED,
    },
)


class TrainingRoom:
    """Opens the training studio when somebody first asks for it.

    Parameters
    ----------
    shop : Studio
        Whose folder holds the training folder, and whose units and clock are shown. Nothing of
        the training is written into its store.
    """

    def __init__(self, shop: Studio) -> None:
        self._shop = shop
        self._lock = Lock()
        self._studio: Studio | None = None

    def studio(self) -> Studio:
        """Return the training studio.

        Raises
        ------
        StoreError
            If its folder cannot be used.
        """
        with self._lock:
            if self._studio is None:
                shown = read_settings(self._shop).settings
                made = open_room(self._shop.folder / FOLDER, self._shop.clock, shown)
                made.hub = self._shop.hub
                self._studio = made
            return self._studio

    def close(self) -> None:
        """Close the training studio if it was opened."""
        with self._lock:
            if self._studio is not None:
                self._studio.store.close()
                self._studio = None


def open_room(folder: Path, clock: Callable[[], datetime], shop: Settings) -> Studio:
    """Return the training studio of a folder, which shows figures as the shop does.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    clock : callable
        Returns the instant.
    shop : Settings
    """
    room = Studio(store=open_store(folder), folder=folder, clock=clock)
    settle(room, shop)
    return room


def settle(room: Studio, shop: Settings) -> None:
    """Let a training studio show figures as the shop does."""
    known = read_settings(room)
    wanted = Settings(
        shop="Training bay (invented)",
        units=shop.units,
        decimal=shop.decimal,
        zone=shop.zone,
        currency=shop.currency,
        convention=shop.convention,
        devices=(METER,),
        bays=(BAY,),
    )
    if known.settings != wanted:
        change_settings(room, wanted, version=known.version)
    room.zone = ZoneInfo(wanted.zone)
