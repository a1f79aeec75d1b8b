"""Copy a studio from one store to another: from a file to PostgreSQL, or back."""

import shutil
from pathlib import Path

from loftwright.errors import ConflictError, NotFoundError, StoreError
from loftwright.services.quiet import refuse_while_running
from loftwright.services.restore_swap import finish_restore
from loftwright.services.shop_folder import FOLDER as SHOP
from loftwright.services.shop_learning import LEARNED
from loftwright.services.studio import utc_now
from loftwright.store.copying import Copied, copy_store
from loftwright.store.engine import FILE
from loftwright.store.keys import FOLDER
from loftwright.store.sql import SqlStore
from loftwright.store.tombstones import FOLDER as ERASED

_ADDRESS = "://"


def copy_studio(
    source: str, target: str, keys: Path, *, anyway: bool = False
) -> tuple[Copied, ...]:
    """Copy a studio into an empty store and return every table with its count and checksum.

    Golfers' keys and what the shop has learned go along, since records and fittings lean on them.

    Parameters
    ----------
    source, target : str
        A data folder, or the address of a PostgreSQL database.
    keys : Path
        The data folder that holds golfers' keys where a store has none beside it.
    anyway : bool
        Also while somebody is being fitted.

    Raises
    ------
    NotFoundError
        If there is no studio in the folder to copy from.
    ConflictError
        If the target holds anything, or a fitting is under way.
    StoreError
        If a store cannot be used, or a file cannot be copied.
    """
    finish_restore(_data_of(source, keys))
    if _ADDRESS not in source and not (Path(source) / FILE).exists():
        raise NotFoundError(
            "there is no studio in this folder",
            place=source,
            mend="Name the data folder of one, or the address of its database.",
        )
    from_keys, to_keys = _keys_of(source, keys), _keys_of(target, keys)
    if from_keys != to_keys and to_keys.exists() and any(to_keys.iterdir()):
        raise ConflictError(
            "the folder to copy into holds golfers' keys",
            place=str(to_keys),
            mend="Name an empty folder; nothing was copied.",
        )
    first, second = _opened(source, keys), _opened(target, keys)
    try:
        refuse_while_running(first, utc_now(), "the studio is not copied", anyway=anyway)
        _copy_folder("golfers' keys", from_keys, to_keys)
        _copy_folder("who was erased", from_keys.parent / ERASED, to_keys.parent / ERASED)
        learned = (_data_of(one, keys) / SHOP / LEARNED for one in (source, target))
        _copy_folder("what the shop has learned", *learned)
        return copy_store(first, second)
    finally:
        first.close()
        second.close()


def shown_place(where: str) -> str:
    """Return a data folder as it is, and the address of a database without its password."""
    if _ADDRESS not in where:
        return where
    from loftwright.store.postgres import shown  # noqa: PLC0415 - only where asked for

    return shown(where)


def _opened(where: str, keys: Path) -> SqlStore:
    if _ADDRESS in where:
        from loftwright.store.postgres import open_postgres  # noqa: PLC0415 - only where asked for

        return open_postgres(where, keys)
    from loftwright.store.sqlite import open_store  # noqa: PLC0415 - beside the other

    return open_store(Path(where))


def _keys_of(where: str, keys: Path) -> Path:
    return _data_of(where, keys) / FOLDER


def _data_of(where: str, keys: Path) -> Path:
    """Return the data folder beside a store."""
    return keys if _ADDRESS in where else Path(where)


def _copy_folder(what: str, source: Path, target: Path) -> None:
    """Have every file of a folder beside the store that is copied into."""
    if source == target or not source.exists():
        return
    try:
        shutil.copytree(source, target, dirs_exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"{what} cannot be copied: {error}",
            place=str(target),
            mend="Make the folder writable; nothing was copied.",
        ) from error
