"""The engines that sum the shop record; the same expression on each.

All balls of a fitting lie in one file of the record. DuckDB takes some files at a time, each lot
on one thread: the sums of a fitting are then the same to the last digit, whatever else the record
holds and however many lots are summed at once, and no more is in memory than the lots in hand.
"""

import re
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, overload

from loftwright.errors import InputError, StoreError
from loftwright.shop.columns import KEYS
from loftwright.shop.record import files, lacking
from loftwright.shop.sums import sums_of

if TYPE_CHECKING:
    import pyarrow as pa

ENGINES: Final = ("duckdb", "spark")
LOT: Final = 200_000
"""Balls that are summed together; a file with more is a lot alone."""
_ROWS_AT_ONCE: Final = 4096
_SIZES: Final = {"MB": 10**6, "GB": 10**9, "MIB": 2**20, "GIB": 2**30}


class Sums(Sequence[Mapping[str, Any]]):
    """Rows of sums, one a club of a fitting, kept in columns and told one by one.

    Parameters
    ----------
    table : pyarrow Table
    """

    def __init__(self, table: "pa.Table | None" = None) -> None:
        self.table = table

    def __len__(self) -> int:
        return 0 if self.table is None else int(self.table.num_rows)

    def __iter__(self) -> Iterator[Mapping[str, Any]]:
        if self.table is not None:
            for batch in self.table.to_batches(max_chunksize=_ROWS_AT_ONCE):
                yield from batch.to_pylist()

    @overload
    def __getitem__(self, place: int) -> Mapping[str, Any]: ...

    @overload
    def __getitem__(self, place: slice) -> Sequence[Mapping[str, Any]]: ...

    def __getitem__(self, place: int | slice) -> Any:
        if isinstance(place, slice):
            return [self[one] for one in range(*place.indices(len(self)))]
        if self.table is None or not -len(self) <= place < len(self):
            raise IndexError(place)
        row: Mapping[str, Any] = self.table.slice(place % len(self), 1).to_pylist()[0]
        return row


def sums_in(
    folder: Path, *, engine: str = "duckdb", master: str = "", memory: str = "", threads: int = 1
) -> Sums:
    """Return the sums of a shop record, one row a club of a fitting.

    Parameters
    ----------
    folder : Path
        Of the record.
    engine : {"duckdb", "spark"}
    master : str
        Of a Spark cluster; this machine alone without it.
    memory : str
        At most so much for DuckDB, such as ``2GB``; what does not fit goes to disk.
    threads : int
        Lots that DuckDB sums at once.

    Raises
    ------
    InputError
        If there is no such engine, it is not installed, or a size cannot be.
    StoreError
        If a file of the record cannot be read.
    """
    if engine not in ENGINES:
        raise InputError(
            f"{engine!r} is no engine", place="engine", mend=f"Give {' or '.join(ENGINES)}."
        )
    if not files(folder):
        return Sums()
    if engine == "spark":
        return Sums(_by_spark(folder, master))
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it

    return Sums(pa.concat_tables(sum_lots(folder, memory=memory, threads=threads)))


def write_sums(folder: Path, place: Path, *, memory: str = "", threads: int = 1) -> int:
    """Write the sums of a shop record into a Parquet file, lot by lot, and return its rows.

    Parameters
    ----------
    folder : Path
        Of the record.
    place : Path
        The file.
    memory : str
        At most so much for DuckDB.
    threads : int

    Raises
    ------
    InputError, StoreError
        As `sums_in`.
    """
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    rows, writer = 0, None
    try:
        for table in sum_lots(folder, memory=memory, threads=threads):
            if writer is None:
                # No two sums are alike: looking for those that are takes longer than to sum.
                writer = pq.ParquetWriter(
                    place, table.schema, compression="zstd", use_dictionary=list(KEYS)
                )
            writer.write_table(table)
            rows += table.num_rows
    finally:
        if writer is not None:
            writer.close()
    return rows


def sum_lots(folder: Path, *, memory: str = "", threads: int = 1) -> Iterator["pa.Table"]:
    """Yield the sums of one lot of a shop record after the other, by DuckDB.

    Parameters
    ----------
    folder : Path
    memory : str
    threads : int
        Lots in hand at once; their sums come in the record's order all the same.

    Raises
    ------
    InputError, StoreError
        As `sums_in`.
    """
    if threads < 1:
        raise InputError(f"{threads} threads cannot be", place="threads", mend="Give 1 or more.")
    share = bytes_of(memory) // threads if memory else 0
    waiting = iter(_lots(folder))
    query = None
    with (
        tempfile.TemporaryDirectory(prefix="loftwright-sums-") as spill,
        ThreadPoolExecutor(max_workers=threads) as workers,
    ):
        in_hand: list[Future[pa.Table]] = []
        while True:
            while len(in_hand) < threads and (lot := next(waiting, None)) is not None:
                query = _query(lot[0]) if query is None else query
                in_hand.append(workers.submit(_sum_lot, lot, query, share, Path(spill)))
            if not in_hand:
                return
            yield in_hand.pop(0).result()


def bytes_of(size: str) -> int:
    """Return a size of memory in bytes, from words such as ``2GB``.

    Raises
    ------
    InputError
        If it is no size.
    """
    found = re.fullmatch(r"(\d+(?:\.\d+)?) ?([MG]i?B)", size.strip(), flags=re.IGNORECASE)
    if found is None or not (count := int(float(found[1]) * _SIZES[found[2].upper()])):
        raise InputError(
            f"{size!r} is no size of memory", place="memory", mend="Give it as 500MB or 2GB."
        )
    return count


def _lots(folder: Path) -> Iterator[list[Path]]:
    """Yield files of a record that are summed together."""
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    lot: list[Path] = []
    balls = 0
    for file in files(folder):
        try:
            told = pq.read_metadata(file)
            here, lost = told.num_rows, lacking(told.schema.to_arrow_schema())
        except (OSError, pa.ArrowException) as error:
            raise _unreadable(file, error) from error
        if lost:
            raise _unreadable(file, ValueError(f"it lacks {', '.join(lost)}"))
        if lot and balls + here > LOT:
            yield lot
            lot, balls = [], 0
        lot.append(file)
        balls += here
    if lot:
        yield lot


def _query(file: Path) -> str:
    """Return the sums of a view called balls as DuckDB's SQL."""
    import ibis  # noqa: PLC0415 - a second to import
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    schema = ibis.Schema.from_pyarrow(pq.read_schema(file))
    return str(ibis.to_sql(sums_of(ibis.table(schema, name="balls")), dialect="duckdb"))


def _sum_lot(lot: Sequence[Path], query: str, memory: int, spill: Path) -> "pa.Table":
    import duckdb  # noqa: PLC0415 - only the shop record needs it

    # Sums of floats come out alike only if they are added up in one order: on one thread.
    asked: dict[str, Any] = {"threads": 1, "temp_directory": str(spill)}
    if memory:
        asked["memory_limit"] = f"{memory}B"
    with duckdb.connect(config=asked) as connection:
        try:
            balls = connection.read_parquet([str(file) for file in lot], hive_partitioning=False)
            balls.create_view("balls")
            return connection.execute(query).to_arrow_table()
        except duckdb.OutOfMemoryException as error:
            raise InputError(
                f"{memory / 1e6:.0f} MB for each thread do not hold the sums of {len(lot)} files",
                place="memory",
                mend="Give more memory, or fewer threads.",
            ) from error
        except duckdb.Error as error:
            raise _unreadable(lot[0], error) from error


def _unreadable(file: Path, error: Exception) -> StoreError:
    return StoreError(
        f"the shop record cannot be read: {str(error).splitlines()[0]}",
        place=str(file),
        mend="Move the file away and make it again: loftwright shop record.",
    )


def _by_spark(folder: Path, master: str) -> "pa.Table":
    try:
        import ibis  # noqa: PLC0415 - a second to import
        from pyspark.sql import SparkSession  # noqa: PLC0415 - an extra of its own
    except ImportError as error:
        raise InputError(
            "Spark is not installed",
            place="engine",
            mend="Install the extra: pip install 'loftwright[spark]', with Java beside it.",
        ) from error
    builder = SparkSession.builder.appName("loftwright").config("spark.sql.ansi.enabled", "false")
    session = builder.master(master or "local[*]").getOrCreate()
    connection = ibis.pyspark.connect(session)
    try:
        # Spark reads wildcards in names.
        names = [re.sub(r"([][{}*?\\])", r"\\\1", str(file)) for file in files(folder)]
        session.read.parquet(*names).createOrReplaceTempView("balls")
        return connection.to_pyarrow(sums_of(connection.table("balls")))
    finally:
        connection.disconnect()
