"""Golfers' keys: they lie beside the store, so that losing one loses what it sealed."""

import os
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Final

from cryptography.fernet import Fernet, InvalidToken

from loftwright.errors import StoreError

FOLDER: Final = "keys"


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

    def make(self, golfer: str) -> None:
        """Make a golfer's key and have it on the disk before anything is sealed with it.

        Raises
        ------
        StoreError
            If the key cannot be written, or the id is no name for a file.
        """
        if not golfer or Path(golfer).name != golfer:
            raise StoreError(
                f"{golfer!r} cannot be a golfer's id",
                place="golfer",
                mend="An id is the name of a file: give it without slashes.",
            )
        if self._file(golfer).exists():
            return
        try:
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            _write_once(self._file(golfer), Fernet.generate_key())
            _settle(self._folder)
        except OSError as error:
            raise StoreError(
                f"a golfer's key cannot be written: {error.strerror}",
                place=str(self._folder),
                mend="Make the folder writable, or free some space.",
            ) from error

    def seal(self, golfer: str, text: str) -> bytes:
        """Return a text sealed under a golfer's key.

        Raises
        ------
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
        return key.encrypt(text.encode("utf-8"))

    def opened(self, golfer: str, sealed: bytes) -> str | None:
        """Return a sealed text, or None when the golfer's key is gone."""
        key = self._key(golfer)
        if key is None:
            return None
        try:
            return key.decrypt(sealed).decode("utf-8")
        except InvalidToken:
            return None

    def forget(self, golfer: str) -> None:
        """Destroy a golfer's key; what it sealed cannot be read any more, in no copy."""
        self._known.pop(golfer, None)
        file = self._file(golfer)
        if file.exists():
            with file.open("r+b") as held:
                held.write(b"\0" * file.stat().st_size)
                held.flush()
                os.fsync(held.fileno())
            file.unlink()
            _settle(self._folder)

    def _file(self, golfer: str) -> Path:
        return self._folder / f"{golfer}.key"

    def _key(self, golfer: str) -> Fernet | None:
        if golfer not in self._known:
            try:
                self._known[golfer] = Fernet(self._file(golfer).read_bytes())
            except (OSError, ValueError):
                return None
        return self._known[golfer]


def _write_once(file: Path, key: bytes) -> None:
    """Have a key on the disk under its name, whole or not at all; leave one that is there."""
    door, draft = tempfile.mkstemp(prefix=".new-", dir=file.parent)
    try:
        with os.fdopen(door, "wb") as held:
            held.write(key)
            held.flush()
            os.fsync(held.fileno())
        with suppress(FileExistsError):
            file.hardlink_to(draft)
    finally:
        Path(draft).unlink()


def _settle(folder: Path) -> None:
    """Have the folder's list of files on the disk, where the platform can."""
    try:
        door = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(door)
    finally:
        os.close(door)
