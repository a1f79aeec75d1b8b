"""Backups as open files: a tar that every tar reads, written whole and read with suspicion.

Only headers of POSIX 1003.1-1988 (ustar) are written and taken: a name, a size, a sum. What a
header can ask for beyond that (links, devices, names of any length) is refused unread.

References
----------
IEEE Std 1003.1-2017, pax, "ustar Interchange Format".
"""

import gzip
import tarfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from typing import IO, Final

from loftwright.errors import IntakeError
from loftwright.services.backup_files import (
    MANIFEST,
    MOST_BYTES,
    MOST_MANIFEST,
    MOST_MEMBERS,
    MOST_RATIO,
    SLACK,
    Manifest,
    manifest_bytes,
    manifest_of,
    no_backup,
)

_BLOCK: Final = 512
_AT_ONCE: Final = 1 << 20
_PADDING: Final = 1 << 20
"""Bytes of nothing that may stand behind the last file."""
_LEVEL: Final = 4


def pack(manifest: Manifest, folder: Path, file: Path) -> None:
    """Write the files of a folder that a manifest names into a backup.

    Raises
    ------
    OSError
        If the disk is full, for example.
    """
    with (
        file.open("wb") as raw,
        gzip.GzipFile(filename="", mode="wb", fileobj=raw, compresslevel=_LEVEL) as packed,
        tarfile.open(fileobj=packed, mode="w|", format=tarfile.USTAR_FORMAT) as tar,
    ):
        listed = folder / MANIFEST
        listed.write_bytes(manifest_bytes(manifest))
        _add(tar, listed, MANIFEST)
        for one in manifest.members:
            _add(tar, folder / one.name, one.name)


def _add(tar: tarfile.TarFile, path: Path, name: str) -> None:
    told = tarfile.TarInfo(name)
    told.size, told.mode = path.stat().st_size, 0o600
    with path.open("rb") as held:
        tar.addfile(told, held)


def read_backup(file: Path, into: Path | None = None) -> Manifest:
    """Read a backup to its last byte, hold it against its sums, and return its manifest.

    Parameters
    ----------
    file : Path
    into : Path, optional
        An empty folder that is given the files; they are only read without it.

    Raises
    ------
    IntakeError
        If it is no backup, is damaged, or would unpack to more than a backup may.
    OSError
        If it cannot be read, or the folder cannot be written.
    """
    place = str(file)
    with file.open("rb") as raw, _unpacking(place), gzip.GzipFile(fileobj=raw) as packed:
        name, size = _header(packed, place)
        if name != MANIFEST or size > MOST_MANIFEST:
            raise no_backup(f"it does not begin with {MANIFEST}", place)
        manifest = manifest_of(_exactly(packed, _padded(size), place)[:size], place)
        _check_size(manifest, file.stat().st_size, place)
        for one in manifest.members:
            if _header(packed, place) != (one.name, one.size):
                raise no_backup(f"where {one.name!r} should follow there is another file", place)
            summed = _member(packed, one.size, None if into is None else into / one.name, place)
            if summed != one.sha256:
                raise no_backup(f"{one.name!r} is not as it was written", place)
        _end(packed, place)
    return manifest


def read_manifest(file: Path) -> Manifest:
    """Return what a backup says of itself, without reading what follows.

    Raises
    ------
    IntakeError
        If it is no backup.
    OSError
        If it cannot be read.
    """
    place = str(file)
    with file.open("rb") as raw, _unpacking(place), gzip.GzipFile(fileobj=raw) as packed:
        name, size = _header(packed, place)
        if name != MANIFEST or size > MOST_MANIFEST:
            raise no_backup(f"it does not begin with {MANIFEST}", place)
        return manifest_of(_exactly(packed, _padded(size), place)[:size], place)


def _check_size(manifest: Manifest, packed: int, place: str) -> None:
    most = min(MOST_BYTES, MOST_RATIO * packed + SLACK)
    if manifest.size > most or len(manifest.members) > MOST_MEMBERS:
        raise IntakeError(
            f"it would unpack to {manifest.size} bytes in {len(manifest.members)} files; a backup "
            f"of its size unpacks to {most} in {MOST_MEMBERS} at most",
            place=place,
            mend="It is no backup that Loftwright wrote; nothing was changed.",
        )


def _header(packed: gzip.GzipFile, place: str) -> tuple[str, int]:
    block = _exactly(packed, _BLOCK, place)
    try:
        told = tarfile.TarInfo.frombuf(block, "utf-8", "strict")
    except (tarfile.HeaderError, UnicodeError) as error:
        raise no_backup("a header in it cannot be read", place) from error
    if told.type not in {tarfile.REGTYPE, tarfile.AREGTYPE} or told.size < 0:
        raise no_backup(f"{told.name[:120]!r} in it is no plain file", place)
    return told.name, told.size


def _member(packed: gzip.GzipFile, size: int, into: Path | None, place: str) -> str:
    """Return the sum of the next file, which is written where it is to go."""
    summed = sha256()
    left = size
    with _opened(into) as out:
        while left:
            some = _exactly(packed, min(left, _AT_ONCE), place)
            left -= len(some)
            summed.update(some)
            if out is not None:
                out.write(some)
    _exactly(packed, _padded(size) - size, place)
    return summed.hexdigest()


@contextmanager
def _opened(into: Path | None) -> Iterator[IO[bytes] | None]:
    if into is None:
        yield None
        return
    into.parent.mkdir(parents=True, exist_ok=True)
    with into.open("xb") as out:
        into.chmod(0o600)
        yield out


def _end(packed: gzip.GzipFile, place: str) -> None:
    # To the very end, where the sum over everything that was packed stands.
    tail = packed.read(_PADDING + 1)
    if len(tail) < 2 * _BLOCK or len(tail) > _PADDING or tail.strip(b"\0"):
        raise no_backup("it does not end behind its last file", place)


def _exactly(packed: gzip.GzipFile, size: int, place: str) -> bytes:
    some = packed.read(size)
    if len(some) != size:
        raise no_backup("it ends too early", place)
    return some


def _padded(size: int) -> int:
    return -(-size // _BLOCK) * _BLOCK


@contextmanager
def _unpacking(place: str) -> Iterator[None]:
    try:
        yield
    except (EOFError, zlib.error, gzip.BadGzipFile) as error:
        raise no_backup(f"it cannot be unpacked ({error})", place) from error
