"""Make a bundle for help of the usual data folder, whether or not its studio opens."""

import os
from pathlib import Path

from loftwright.errors import IntakeError, LoftwrightError
from loftwright.services.data_folder import data_folder
from loftwright.services.diagnostics import Bundle, make_bundle
from loftwright.services.opening import STORE, open_known_studio
from loftwright.services.program_log import log_file
from loftwright.services.studio import Studio, utc_now
from loftwright.store.sqlite import open_store_to_read


def diagnose_into(file: Path) -> tuple[Bundle, LoftwrightError | None]:
    """Write a bundle into a new file, and return it with why the studio does not open.

    A store in a file is only read; tables of an older version stay as they are.

    Parameters
    ----------
    file : Path

    Raises
    ------
    IntakeError
        If the file is there already or cannot be written.
    """
    if file.exists():
        raise IntakeError(
            "the file is there already", place=str(file), mend="Name a new one with --to."
        )
    folder = data_folder()
    studio, trouble = _opened(folder)
    try:
        bundle = make_bundle(utc_now(), folder, log_file(folder), studio=studio, trouble=trouble)
    finally:
        if studio is not None:
            studio.store.close()
    try:
        file.write_bytes(bundle.data())
    except OSError as error:
        raise IntakeError(
            f"the bundle cannot be written: {error.strerror}",
            place=str(file),
            mend="Name a file in a folder that is there and may be written.",
        ) from error
    return bundle, trouble


def _opened(folder: Path) -> tuple[Studio | None, LoftwrightError | None]:
    try:
        if os.environ.get(STORE):
            return open_known_studio(), None
        return Studio(store=open_store_to_read(folder), folder=folder), None
    except LoftwrightError as error:
        return None, error
