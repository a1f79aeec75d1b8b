"""What a golfer left in the files of the data folder, beside the store."""

import os
import shutil
from collections.abc import Collection, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.export_marker import golfers_in, marked_folders
from loftwright.shop.record import FILE as BALLS
from loftwright.shop.record import erase
from loftwright.shop.turns import turn
from loftwright.store.tombstones import digest_of

KEYS: Final = "keys"
LOGS: Final = "logs"
SHOP: Final = "shop"
BACKUPS: Final = "backups"
_DRAFT: Final = ".new-"


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Wait until no other process erases in a data folder, and keep others waiting meanwhile.

    Raises
    ------
    StoreError
        If the folder cannot be written.
    """
    with ExitStack() as held:
        try:
            held.enter_context(turn(folder))
        except OSError as error:
            raise _cannot(folder, error) from error
        yield


def forget_keys(folder: Path, who: Collection[str]) -> int:
    """Destroy the keys of erased golfers, also in the copies of keys; return how many went.

    Parameters
    ----------
    folder : Path
        The data folder.
    who : collection of str
        Digests, as the list of who was erased has them.

    Raises
    ------
    StoreError
        If one cannot be removed.
    """
    gone = 0
    for place in (folder / KEYS, folder / BACKUPS / KEYS):
        for file in sorted(place.rglob("*.key")) if place.is_dir() else ():
            if digest_of(file.stem) in who:
                _destroy(file)
                gone += 1
    return gone


def leave_records(folder: Path, codes: Collection[str]) -> int:
    """Take golfers out of every shop record in the data folder, copies of it too.

    Parameters
    ----------
    folder : Path
        The data folder.
    codes : collection of str
        That stand for the golfers in the record.

    Returns
    -------
    int
        Balls that went from the studio's own record.

    Raises
    ------
    StoreError
        If a record cannot be written.
    """
    gone = 0
    for record in sorted({file.parent.parent for file in _there(folder, f"part=*/{BALLS}")}):
        went = sum(erase(record, code) for code in sorted(codes))
        gone += went if record == folder / SHOP else 0
        for draft in record.glob(f"part=*/{_DRAFT}*"):
            _removed(draft)
    for copy in sorted(_there(folder, "balls/[0-9a-f][0-9a-f].parquet")):
        _leave_copy(copy, codes)
    return gone


def remove_exports(folder: Path, golfers: Collection[str]) -> int:
    """Remove exports inside the data folder that hold a golfer, and return how many went.

    Raises
    ------
    StoreError
        If one cannot be removed.
    """
    who = {digest_of(one) for one in golfers}
    gone = 0
    for export in marked_folders(folder):
        if who & golfers_in(export):
            try:
                shutil.rmtree(export)
            except OSError as error:
                raise _cannot(export, error) from error
            gone += 1
    return gone


def clean_logs(folder: Path, ids: Collection[str]) -> int:
    """Take lines that name an id out of the program's logs, and return how many went.

    Raises
    ------
    StoreError
        If a log cannot be written.
    """
    wanted = [one.encode() for one in ids]
    gone = 0
    place = folder / LOGS
    for file in sorted(place.rglob("*")) if place.is_dir() else ():
        if not file.is_file():
            continue
        try:
            lines = file.read_bytes().splitlines(keepends=True)
            left = [line for line in lines if not any(one in line for one in wanted)]
            if len(left) != len(lines):
                # The same file: whoever writes to it goes on behind what is left.
                with file.open("r+b") as held:
                    held.write(b"".join(left))
                    held.truncate()
                    held.flush()
                    os.fsync(held.fileno())
                gone += len(lines) - len(left)
        except OSError as error:
            raise _cannot(file, error) from error
    return gone


def _there(folder: Path, pattern: str) -> Iterator[Path]:
    for file in folder.rglob(pattern):
        if BACKUPS not in file.relative_to(folder).parts[:1]:
            yield file


def _leave_copy(file: Path, codes: Collection[str]) -> None:
    """Take golfers out of one file of a copied record."""
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.compute as pc  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    try:
        old = pq.read_table(file, partitioning=None)
        names = pa.array(sorted(codes), pa.string())
        left = old.filter(pc.invert(pc.is_in(old["golfer"], value_set=names)))
        if left.num_rows != old.num_rows:
            draft = file.with_name(f"{_DRAFT}{file.name}")
            pq.write_table(left, draft, compression="zstd")
            draft.replace(file)
    except OSError as error:
        raise _cannot(file, error) from error
    except (KeyError, pa.ArrowException):
        # Somebody else's file, of another form.
        return


def _destroy(file: Path) -> None:
    try:
        with file.open("r+b") as held:
            held.write(b"\0" * file.stat().st_size)
            held.flush()
            os.fsync(held.fileno())
        file.unlink()
    except OSError as error:
        raise _cannot(file, error) from error


def _removed(file: Path) -> None:
    try:
        file.unlink(missing_ok=True)
    except OSError as error:
        raise _cannot(file, error) from error


def _cannot(file: Path, error: OSError) -> StoreError:
    return StoreError(
        f"what a golfer left cannot be removed: {error.strerror}",
        place=str(file),
        mend="Make the folder writable; the erase goes on when the studio is opened again.",
    )
