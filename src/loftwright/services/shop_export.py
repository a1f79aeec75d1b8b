"""Copy the shop record into a folder that anybody can read without this program."""

import shutil
from dataclasses import dataclass
from pathlib import Path

from loftwright.errors import EvidenceError, StoreError
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_leaving import take_out_stale
from loftwright.services.studio import Studio
from loftwright.shop.form import readme
from loftwright.shop.record import files, standing
from loftwright.shop.turns import turn

README = "README.md"
BALLS = "balls"


@dataclass(frozen=True, slots=True, kw_only=True)
class Exported:
    """What was copied."""

    files: int
    fittings: int
    balls: int


def export_record(studio: Studio, to: Path) -> Exported:
    """Copy a studio's shop record into a folder, with a page on its form beside it.

    Parameters
    ----------
    studio : Studio
    to : Path
        A folder that is not there yet, or an empty one.

    Raises
    ------
    EvidenceError
        If there is nothing in the record.
    StoreError
        If the folder holds something, or a file cannot be read or written.
    """
    if to.exists() and (not to.is_dir() or any(to.iterdir())):
        raise StoreError(
            "there is something already, and it is left as it is",
            place=str(to),
            mend="Name a folder that is not there yet.",
        )
    take_out_stale(studio)
    folder = record_folder(studio)
    there = standing(folder)
    if not there:
        raise EvidenceError(
            "the shop record is empty",
            place=str(folder),
            mend="Bring it up to date: loftwright shop record.",
        )
    try:
        (to / BALLS).mkdir(parents=True, exist_ok=True)
        with turn(folder):
            copied = files(folder)
            for file in copied:
                part = file.parent.name.partition("=")[2]
                shutil.copyfile(file, to / BALLS / f"{part}.parquet")
        (to / README).write_text(readme(), encoding="utf-8")
    except OSError as error:
        raise StoreError(
            f"the record cannot be copied: {error.strerror}",
            place=str(to),
            mend="Name a folder that can be written, with enough room.",
        ) from error
    return Exported(files=len(copied), fittings=len(there), balls=sum(there.values()))
