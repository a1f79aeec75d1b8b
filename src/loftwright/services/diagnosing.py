"""Make a bundle for help of the usual data folder, whether or not its studio opens."""

import os
from datetime import datetime
from pathlib import Path

from loftwright.errors import IntakeError, LoftwrightError
from loftwright.services.data_folder import data_folder
from loftwright.services.diagnostics import Bundle, make_bundle
from loftwright.services.doctor import Looked, look_over
from loftwright.services.doctor_store import is_still, store_file
from loftwright.services.opening import STORE
from loftwright.services.program_log import log_file
from loftwright.services.studio import Studio, utc_now
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store_to_read


def diagnose_into(file: Path) -> tuple[Bundle, LoftwrightError | None]:
    """Write a bundle into a new file, and return it with why the studio does not open.

    The store is only read; tables of another version stay as they are, and their schema is told.

    Parameters
    ----------
    file : Path

    Raises
    ------
    IntakeError
        If the file is there already or cannot be written.
    """
    if file.exists():
        raise _there_already(file)
    folder, url, now = data_folder(), os.environ.get(STORE, ""), utc_now()
    studio, trouble = _opened(folder, url)
    try:
        bundle = make_bundle(
            now,
            folder,
            log_file(folder),
            studio=studio,
            looked=_looked(folder, now, url),
            trouble=trouble,
        )
    finally:
        if studio is not None:
            studio.store.close()
    _write(file, bundle.data())
    return bundle, trouble


def _write(file: Path, data: bytes) -> None:
    try:
        with file.open("xb") as out:
            out.write(data)
    except FileExistsError as error:
        raise _there_already(file) from error
    except OSError as error:
        raise IntakeError(
            f"the bundle cannot be written: {error.strerror}",
            place=str(file),
            mend="Name a file in a folder that is there and may be written.",
        ) from error


def _there_already(file: Path) -> IntakeError:
    return IntakeError(
        "the file is there already", place=str(file), mend="Name a new one with --to."
    )


def _opened(folder: Path, url: str) -> tuple[Studio | None, LoftwrightError | None]:
    try:
        return Studio(store=_store_at(folder, url), folder=folder), None
    except LoftwrightError as error:
        return None, error


def _store_at(folder: Path, url: str) -> SqlStore:
    if not url:
        return open_store_to_read(folder, still=is_still(store_file(folder)))
    from loftwright.store.postgres import open_postgres_to_read  # noqa: PLC0415 - where it is named

    return open_postgres_to_read(url, folder)


def _looked(folder: Path, now: datetime, url: str) -> Looked | None:
    """Return what the doctor finds; None where there is nothing to look over."""
    try:
        return look_over(folder, now, url)
    except LoftwrightError:
        return None
