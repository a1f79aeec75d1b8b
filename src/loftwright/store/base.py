"""What every part of the store stands on, whatever the database."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import RLock

from sqlalchemy import Connection, Engine, PoolProxiedConnection, text
from sqlalchemy.exc import DatabaseError, DataError, OperationalError

from loftwright.errors import InputError, StoreError


class Base:
    """What every part of the store stands on: reading and writing whole transactions.

    Parameters
    ----------
    engine : Engine
    place : str
        What messages call the store.
    """

    mend = (
        "Look whether the disk is full, the folder is writable and no other program holds the "
        "file; nothing of this act was written."
    )
    """What helps where the database cannot be used."""

    def __init__(self, engine: Engine, place: str) -> None:
        self._engine = engine
        self._writing = engine.execution_options(writes=True)
        self._place = place
        self._lock = RLock()
        self._looking: PoolProxiedConnection | None = None

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read within one transaction."""
        with self._told(), self._engine.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write within one transaction, which is on the disk when this ends."""
        with self._lock, self._told(), self._writing.begin() as connection:
            yield connection

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Tell what the database refuses in the words of the store."""
        try:
            yield
        except (UnicodeEncodeError, OverflowError) as error:
            raise InputError(
                f"this cannot be kept: {error}",
                place=self._place,
                mend="Send text as UTF-8, and whole numbers of at most 18 digits.",
            ) from error
        except DataError as error:
            raise InputError(
                f"this cannot be kept: {error.orig}",
                place=self._place,
                mend="Send text without control characters, and numbers that can be.",
            ) from error
        except OperationalError as error:
            raise StoreError(
                f"the store cannot be used: {error.orig}",
                place=self._place,
                mend=self.mend,
            ) from error
        except DatabaseError as error:
            raise StoreError(
                f"the store refuses: {error.orig}",
                place=self._place,
                mend="Nothing of this act was written; run it again, or restore a backup.",
            ) from error

    def state(self) -> object:
        """Return what differs from before whenever any program has written since.

        Asked before something is read, so that what is kept under it is never too old.
        """
        with self._told(), self._lock:
            if self._engine.dialect.name == "postgresql":
                with self._engine.begin() as connection:
                    return connection.scalar(text("SELECT pg_current_snapshot()::text"))
            # This connection writes nothing: it counts what every other one has committed.
            if self._looking is None:
                self._looking = self._engine.raw_connection()
            cursor = self._looking.cursor()
            cursor.execute("PRAGMA data_version")
            row = cursor.fetchone()
            cursor.close()
            return None if row is None else row[0]

    def tell(self, connection: Connection, topic: str, revision: int) -> None:
        """Tell other processes nothing: a file has one process."""

    def hear(self, told: Callable[[str, int], None]) -> None:
        """Hear nothing from other processes: a file has one process."""

    def close(self) -> None:
        """Let go of files and connections."""
        if self._looking is not None:
            self._looking.close()
            self._looking = None
        self._engine.dispose()
