"""Where a command finds a rack: in the data folder, or in a file of the open form."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from loftwright.intake.files import cannot_open
from loftwright.services.opening import open_known_studio
from loftwright.services.rack_in import bring_in, look_at
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store


@contextmanager
def rack_of(file: Path | None) -> Iterator[Studio]:
    """Lend a studio with a rack, and close it.

    Parameters
    ----------
    file : Path, optional
        A rack in the open form; it is read beside, and nothing is kept. Without it the studio of
        the data folder is opened.

    Yields
    ------
    Studio

    Raises
    ------
    IntakeError, InputError
        If the file cannot be read, or a row of it is refused.
    NotFoundError
        If there is neither a file nor a studio.
    """
    if file is None:
        studio = open_known_studio()
        try:
            yield studio
        finally:
            studio.store.close()
        return
    try:
        data = file.read_bytes()
    except OSError as error:
        raise cannot_open(file, error) from error
    with TemporaryDirectory(prefix="loftwright-rack-") as folder:
        beside = Path(folder)
        studio = Studio(store=open_store(beside, draft=True), folder=beside)
        try:
            coming = look_at(studio, file.name, data)
            bring_in(studio, file.name, data, seen=coming.seen)
            yield studio
        finally:
            studio.store.close()
