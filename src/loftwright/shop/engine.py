"""The engines that sum the shop record; the same expression on each."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from loftwright.errors import InputError
from loftwright.shop.record import files
from loftwright.shop.sums import sums_of

ENGINES = ("duckdb", "spark")


def sums_in(
    folder: Path, *, engine: str = "duckdb", master: str = "", memory: str = ""
) -> Sequence[Mapping[str, Any]]:
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

    Raises
    ------
    InputError
        If there is no such engine, or it is not installed.
    """
    if engine not in ENGINES:
        raise InputError(
            f"{engine!r} is no engine", place="engine", mend=f"Give {' or '.join(ENGINES)}."
        )
    there = [str(file) for file in files(folder)]
    if not there:
        return ()
    connection = _spark(master) if engine == "spark" else _duckdb(memory)
    try:
        balls = connection.read_parquet(there)
        rows: list[dict[str, Any]] = connection.to_pyarrow(sums_of(balls)).to_pylist()
    finally:
        connection.disconnect()
    return rows


def _duckdb(memory: str) -> Any:  # noqa: ANN401 - ibis has no type for any engine
    import ibis  # noqa: PLC0415 - a second to import

    # Rows come back in any order; sums of floats in one order need one thread.
    connection = ibis.duckdb.connect(threads=1)
    if memory:
        connection.raw_sql(f"SET memory_limit='{memory}'")
    return connection


def _spark(master: str) -> Any:  # noqa: ANN401 - ibis has no type for any engine
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
    return ibis.pyspark.connect(session)
