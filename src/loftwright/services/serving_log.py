"""The log of a studio that is served: begun before its store opens, ended behind it."""

import logging
import os
import platform
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from loftwright import __version__
from loftwright.errors import LoftwrightError
from loftwright.services.data_folder import data_folder
from loftwright.services.log_lines import place_of, told
from loftwright.services.program_log import ProgramLog, log_file
from loftwright.services.studio import Studio
from loftwright.store.schema import HEAD

STANDARD_ERROR: Final = "-"

log: Final = logging.getLogger(__name__)


@contextmanager
def started_log(where: str = "") -> Iterator[ProgramLog]:
    """Write the program's log for the length of a block, and why that ended early.

    Parameters
    ----------
    where : str
        A file, or `-` for standard error; the data folder's own without it.
    """
    file = log_file(data_folder()) if not where else Path(where).expanduser()
    with ProgramLog(None if where == STANDARD_ERROR else file) as made:
        try:
            yield made
        except LoftwrightError as error:
            log.error(  # noqa: TRY400 - the fault is the input's, and is told where it was given
                "could not go on", extra=told(kind=error.kind, at=place_of(error))
            )
            raise
        except Exception:
            log.exception("ended by a fault of the program")
            raise


def tell_start(studio: Studio) -> None:
    """Write down what begins to run, and on which store."""
    log.info(
        "started",
        extra=told(
            version=__version__,
            schema=HEAD,
            engine=studio.store.database,
            python=platform.python_version(),
            process=os.getpid(),
        ),
    )
