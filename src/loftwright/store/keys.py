"""Golfers' keys: they lie beside the store, so that losing one loses what it sealed."""

import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Lock
from typing import Final

from cryptography.fernet import Fernet, InvalidToken

from loftwright.errors import InputError, StoreError
from loftwright.store.tombstones import mark_erased, settle

FOLDER: Final = "keys"
DRAFT: Final = ".new-"
"""How the names of keys begin that are being written."""


class KeyRing:
    """Seals and opens what identifies a golfer, each under a key of the golfer's own.

    Parameters
    ----------
    folder : Path
        The data folder; keys lie in its folder `keys`.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder / FOLDER
        self._known: dict[str, Fernet] = {}
        self._lock = Lock()

    def make(self, golfer: str) -> None:
        """Make a golfer's key and have it on the disk before anything is sealed with it.

        A key that is there stays.

        Raises
        ------
        InputError
            If the id is no name for a file.
        StoreError
            If the key cannot be written.
        """
        if not golfer or "\0" in golfer or Path(golfer).name != golfer:
            raise InputError(
                f"{golfer!r} cannot be a golfer's id",
                place="golfer",
                mend="Its key is a file of that name: leave out slashes.",
            )
        file = self._file(golfer)
        try:
            with self._lock:
                if file.exists():
                    return
                self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
                write_key(file, Fernet.generate_key())
                settle(self._folder)
                settle(self._folder.parent)
        except OSError as error:
            raise _unwritable(error, self._folder) from error

    def seal(self, golfer: str, text: str) -> bytes:
        """Return a text sealed under a golfer's key.

        Raises
        ------
        InputError
            If the text is no text.
        StoreError
            If the golfer's key is gone.
        """
        key = self._key(golfer)
        if key is None:
            raise StoreError(
                "this golfer's key is gone, as after an erase",
                place=str(self._file(golfer)),
                mend="Open a new golfer instead.",
            )
        try:
            return key.encrypt(text.encode("utf-8"))
        except UnicodeEncodeError as error:
            raise InputError(
                f"a text holds {text[error.start]!r}, which is no character",
                place="line",
                mend="Send the text as UTF-8.",
            ) from error

    def opened(self, golfer: str, sealed: bytes) -> str | None:
        """Return a sealed text, or None when the golfer's key is gone."""
        return self.opener(golfer)(sealed)

    def opener(self, golfer: str) -> Callable[[bytes], str | None]:
        """Return what opens many texts of one golfer, looking for the key once."""
        key = self._key(golfer)

        def opened(sealed: bytes) -> str | None:
            if key is None:
                return None
            try:
                return key.decrypt(sealed).decode("utf-8")
            except InvalidToken:
                return None

        return opened

    def there(self) -> frozenset[str]:
        """Return the golfers whose keys are there."""
        try:
            with os.scandir(self._folder) as files:
                names = (one.name for one in files)
                return frozenset(name[:-4] for name in names if name.endswith(".key"))
        except OSError:
            return frozenset()

    def forget(self, golfer: str) -> None:
        """Destroy a golfer's key; what it sealed cannot be read any more, in no copy.

        That it was destroyed is written down first, so that no copy of the key is taken back.

        Raises
        ------
        StoreError
            If the key's file cannot be removed.
        """
        file = self._file(golfer)
        with self._lock:
            self._known.pop(golfer, None)
            try:
                mark_erased(self._folder.parent, golfer)
                if file.exists():
                    overwrite(file)
                    file.unlink()
                    settle(self._folder)
            except OSError as error:
                raise _unwritable(error, self._folder) from error

    def _file(self, golfer: str) -> Path:
        return self._folder / f"{golfer}.key"

    def _key(self, golfer: str) -> Fernet | None:
        # The file is looked at each time: another program may have destroyed it meanwhile.
        file = self._file(golfer)
        with self._lock:
            if not file.exists():
                self._known.pop(golfer, None)
                return None
            if golfer not in self._known:
                try:
                    self._known[golfer] = Fernet(file.read_bytes())
                except (OSError, ValueError):
                    return None
            return self._known[golfer]


def write_key(file: Path, key: bytes) -> None:
    """Have a key on the disk under its name, whole or not at all."""
    door, draft = tempfile.mkstemp(prefix=DRAFT, dir=file.parent)
    try:
        with os.fdopen(door, "wb") as held:
            held.write(key)
            held.flush()
            os.fsync(held.fileno())
        Path(draft).rename(file)
    except OSError:
        with suppress(OSError):
            Path(draft).unlink(missing_ok=True)
        raise


def overwrite(file: Path) -> None:
    """Have nothing of a key on the disk where it was, as far as the disk writes in place."""
    with file.open("r+b") as held:
        held.write(b"\0" * file.stat().st_size)
        held.flush()
        os.fsync(held.fileno())


def _unwritable(error: OSError, folder: Path) -> StoreError:
    return StoreError(
        f"a golfer's key cannot be written or removed: {error.strerror}",
        place=str(folder),
        mend="Make the folder writable, or free some space.",
    )
