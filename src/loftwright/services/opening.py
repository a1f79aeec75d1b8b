"""Open the studio that a data folder holds."""

import os
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from functools import partial
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from sqlalchemy import Engine

from loftwright.errors import NotFoundError
from loftwright.services.backup import make_backup
from loftwright.services.backup_content import Source
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.data_folder import data_folder
from loftwright.services.erasing import finish_if_possible
from loftwright.services.one_server import DEMO_SERVING, SERVING, hold
from loftwright.services.restore_swap import finish_restore
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio, utc_now
from loftwright.shop.turns import FILE as TURNS
from loftwright.shop.turns import turn
from loftwright.store.engine import FILE
from loftwright.store.schema import HEAD
from loftwright.store.snapshot import snapshot
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
    finish_restore(chosen)
    studio = Studio(store=_store_at(url, chosen), folder=chosen)
    studio.zone = ZoneInfo(read_settings(studio).settings.zone)
    finish_if_possible(studio)
    return studio


def hold_studio(*, demo: bool = False) -> AbstractContextManager[object]:
    """Take the usual studio for this process, which is to serve it, until the block ends.

    A database has any number of servers, which tell each other what they write; a file has one.

    Raises
    ------
    ConflictError
        If another process serves it.
    StoreError
        If the data folder cannot be written.
    """
    if os.environ.get(STORE) and not demo:
        return nullcontext()
    # Beside the demo, whose folder is put in its place whole.
    return hold(data_folder(), DEMO_SERVING if demo else SERVING)


def _store_at(url: str, folder: Path) -> SqlStore:
    def keep_first(engine: Engine) -> None:
        source = Source(folder=folder, snapshot=partial(snapshot, engine))
        make_backup(source, utc_now(), before=HEAD)

    if not url:
        with _in_turn(folder):
            return open_store(folder, before=keep_first)
    from loftwright.store.postgres import open_postgres  # noqa: PLC0415 - only where it is named

    return open_postgres(url, folder, before=keep_first)


@contextmanager
def _in_turn(folder: Path) -> Iterator[None]:
    """Wait while a restore puts another store in the place of the one that would be opened."""
    backups = folder / BACKUPS
    if not (backups / TURNS).exists():
        yield
        return
    with turn(backups):
        yield


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
    finish_restore(chosen)
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
