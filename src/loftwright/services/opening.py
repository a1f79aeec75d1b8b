"""Open the studio that a data folder holds."""

import os
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from loftwright.errors import NotFoundError
from loftwright.services.data_folder import data_folder
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store

DEMO: Final = "demo"
STORE: Final = "LOFTWRIGHT_STORE"
"""Variable with the address of a PostgreSQL database; a file in the data folder without it."""


def open_studio(folder: Path | None = None) -> Studio:
    """Return the studio of a data folder, which is made if it is not there.

    Parameters
    ----------
    folder : Path, optional
        The usual one without it, with the store that LOFTWRIGHT_STORE names.

    Raises
    ------
    StoreError
        If the folder cannot be written, or holds what a newer version made.
    """
    chosen = data_folder() if folder is None else folder
    url = os.environ.get(STORE, "") if folder is None else ""
    studio = Studio(store=_store_at(url, chosen), folder=chosen)
    studio.zone = ZoneInfo(read_settings(studio).settings.zone)
    return studio


def _store_at(url: str, folder: Path) -> SqlStore:
    if not url:
        return open_store(folder)
    from loftwright.store.postgres import open_postgres  # noqa: PLC0415 - only where it is named

    return open_postgres(url, folder)


def open_known_studio(folder: Path | None = None) -> Studio:
    """Return the studio of a data folder that holds one already.

    Parameters
    ----------
    folder : Path, optional
        The usual one without it.

    Raises
    ------
    StoreError
        If there is none, or it cannot be used.
    """
    chosen = data_folder() if folder is None else folder
    if folder is None and os.environ.get(STORE):
        return open_studio()
    if not (chosen / FILE).exists():
        raise NotFoundError(
            "there is no studio in this folder",
            place=str(chosen),
            mend="Name the data folder of one, or open one with `loftwright serve`.",
        )
    return open_studio(chosen)


def open_demo_studio() -> Studio:
    """Return an invented studio, in a folder of its own beside the real one."""
    from loftwright.services.demo_opening import prepare_demo  # noqa: PLC0415 - only for the demo

    folder = data_folder() / DEMO
    prepare_demo(folder)
    return open_studio(folder)
