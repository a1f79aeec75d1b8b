"""Copy what is kept of a golfer, or of the whole shop, into open files."""

import io
import os
import shutil
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from uuid import uuid4

from loftwright.errors import StoreError
from loftwright.services.export_golfer import golfer_files
from loftwright.services.export_marker import FILE as MARKER
from loftwright.services.export_marker import marker
from loftwright.services.export_readme import readme_of_golfer, readme_of_shop
from loftwright.services.export_shop import shop_files
from loftwright.services.one_golfer import records_of
from loftwright.services.studio import Studio

README: Final = "README.txt"
Files = Iterator[tuple[str, bytes]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Copied:
    """What was written.

    Attributes
    ----------
    files, bytes : int
    """

    files: int
    bytes: int


def export_golfer(studio: Studio, golfer: str, to: Path, *, results: bool = True) -> Copied:
    """Copy everything that is kept of a golfer into a folder.

    Parameters
    ----------
    studio : Studio
    golfer : str
        Any record of the golfer.
    to : Path
        A folder that is not there yet, or an empty one.
    results : bool
        Whether clubs are compared and reports printed.

    Raises
    ------
    NotFoundError
        If there is no such golfer; nothing is written then.
    StoreError
        If the folder holds something or cannot be written; it is left as it was.
    """
    return _write(to, _of_golfer(studio, golfer, results=results))


def export_shop(studio: Studio, to: Path, *, results: bool = False) -> Copied:
    """Copy everything that a shop keeps into a folder; as `export_golfer`."""
    return _write(to, _of_shop(studio, results=results))


def zipped(studio: Studio, golfer: str) -> bytes:
    """Return the copy of a golfer as one zip file.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    out = io.BytesIO()
    day = studio.today()
    made = (day.year, day.month, day.day, 0, 0, 0)
    with zipfile.ZipFile(out, "w", compression=zipfile.ZIP_DEFLATED) as archive:
        for name, content in _of_golfer(studio, golfer, results=True):
            told = zipfile.ZipInfo(f"copy/{name}", date_time=made)
            told.compress_type = zipfile.ZIP_DEFLATED
            told.external_attr = 0o600 << 16
            archive.writestr(told, content)
    return out.getvalue()


def _of_golfer(studio: Studio, golfer: str, *, results: bool) -> Files:
    records = records_of(studio, golfer)
    yield README, readme_of_golfer(studio.today())
    yield MARKER, marker(records, {"of": "golfer", "day": studio.today().isoformat()})
    yield from golfer_files(studio, golfer, results=results)


def _of_shop(studio: Studio, *, results: bool) -> Files:
    yield README, readme_of_shop(studio.today())
    every = studio.store.golfer_ids()
    yield MARKER, marker(every, {"of": "shop", "day": studio.today().isoformat()})
    yield from shop_files(studio, results=results)


def _write(to: Path, files: Files) -> Copied:
    """Write files into a folder beside the wanted one, and give it the name when it is whole."""
    _refuse_filled(to)
    to = to.resolve()
    draft = to.with_name(f".{to.name}.{uuid4().hex[:8]}.part")
    count = size = 0
    try:
        draft.mkdir(mode=0o700, parents=True)
        for name, content in files:
            place = draft / name
            place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            with place.open("wb") as held:
                held.write(content)
                held.flush()
                os.fsync(held.fileno())
            count, size = count + 1, size + len(content)
        if to.is_dir():
            to.rmdir()
        draft.rename(to)
    except OSError as error:
        raise StoreError(
            f"the copy cannot be written: {error.strerror}",
            place=str(to),
            mend="Name a folder that can be written, with enough room; nothing was left there.",
        ) from error
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    return Copied(files=count, bytes=size)


def _refuse_filled(to: Path) -> None:
    if not to.name or to.resolve() in (Path.cwd(), *Path.cwd().parents):
        raise StoreError(
            "the copy needs a folder of its own, not the one that you work in",
            place=str(to),
            mend="Name a folder that is not there yet.",
        )
    try:
        filled = to.exists() and (not to.is_dir() or any(to.iterdir()))
    except OSError as error:
        raise StoreError(
            f"this place cannot be looked at: {error.strerror}",
            place=str(to),
            mend="Name a folder that can be read and written.",
        ) from error
    if filled:
        raise StoreError(
            "there is something already, and it is left as it is",
            place=str(to),
            mend="Name a folder that is not there yet, or an empty one.",
        )
