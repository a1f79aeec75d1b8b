"""Learn from the shop record, and keep what was learned under a version of its own.

A version is two files in the record's folder ``learned``: ``0003.json`` with every figure by
name, and beside it ``0003.effects.parquet`` with how well effects are known together. Neither
is ever written again.
"""

import json
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import EvidenceError, StoreError
from loftwright.services.own_process import in_own_process
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_leaving import take_out_stale
from loftwright.services.shop_likeness import alike_of
from loftwright.services.studio import Studio
from loftwright.shop.alike import Alike
from loftwright.shop.columns import RESPONSES, SWING_RESPONSES
from loftwright.shop.engine import sums_in
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learned_form import FORM, learned_of, record_of
from loftwright.shop.learning import learn_from
from loftwright.shop.levels import Effects
from loftwright.shop.read_back import belongs_in

LEARNED: Final = "learned"
_COVARIANCE: Final = "covariance"
_ENDING: Final = ".effects.parquet"
# Of JSON nested without end, numbers without end, and columns of another kind than ours.
_DAMAGED: Final = (
    *(ValueError, LookupError, TypeError, AttributeError),
    *(ArithmeticError, RuntimeError, MemoryError),
)
_STAGES: Final = (("effects", RESPONSES), ("swing_effects", SWING_RESPONSES))


def learn_shop(
    studio: Studio,
    *,
    engine: str = "duckdb",
    master: str = "",
    memory: str = "",
    threads: int = 1,
) -> ShopLearned:
    """Learn from a studio's shop record and keep it under the next version.

    What may not stand in the record any more is taken out first.

    Raises
    ------
    EvidenceError
        If the record holds nothing to learn from.
    InputError
        If the engine is not there.
    StoreError
        If what was learned cannot be written.
    """
    folder = record_folder(studio)
    take_out_stale(studio)
    rows = sums_in(folder, engine=engine, master=master, memory=memory, threads=threads)
    return _learn(folder, rows, alike_of(studio), studio.today())


def learn_apart(studio: Studio) -> int:
    """Learn as `learn_shop` does, in a process of its own, and return the version.

    The arithmetic would keep the threads that serve pages waiting.

    Raises
    ------
    ChildProcessError
        If that process was ended from outside.
    EvidenceError, StoreError
        As `learn_shop`.
    """
    take_out_stale(studio)
    return in_own_process(_version_of, record_folder(studio), alike_of(studio), studio.today())


def learned_versions(studio: Studio) -> tuple[int, ...]:
    """Return the versions of what a studio learned, the oldest first."""
    return tuple(_numbers(record_folder(studio) / LEARNED, ".json"))


def newest_learned(studio: Studio) -> ShopLearned | None:
    """Return what a studio learned last; None before it learned anything.

    Raises
    ------
    StoreError
        If it cannot be read.
    """
    versions = learned_versions(studio)
    return read_learned(studio, versions[-1]) if versions else None


def read_learned(studio: Studio, version: int) -> ShopLearned:
    """Return what a studio learned at one time, as it was learned to the last digit.

    Parameters
    ----------
    studio : Studio
    version : int
        From 1.

    Raises
    ------
    StoreError
        If it is gone, damaged, or of a form that a newer program wrote.
    """
    place = _place(record_folder(studio) / LEARNED, version)
    try:
        return _read(place)
    except OSError as error:
        raise StoreError(
            f"what was learned cannot be read: {error.strerror}",
            place=str(error.filename or place),
            mend="Bring the file back from a backup, or learn anew.",
        ) from error
    except _DAMAGED as error:
        raise StoreError(
            f"what was learned is damaged: {error}",
            place=str(place),
            mend="Bring the file back from a backup, or learn anew.",
        ) from error


def replace_learned(studio: Studio, version: int, learned: ShopLearned | None) -> None:
    """Write a version anew, as it would have been without a golfer who is erased.

    Parameters
    ----------
    studio : Studio
    version : int
    learned : ShopLearned, optional
        None where nobody else had taught it: then only its number stays taken.

    Raises
    ------
    StoreError
        If it cannot be written; write it anew again then.
    """
    place = _place(record_folder(studio) / LEARNED, version)
    beside = place.with_name(f"{version:04d}{_ENDING}")
    try:
        if learned is None:
            place.unlink(missing_ok=True)
            beside.write_bytes(b"")
            return
        raw = _parquet(learned)
        _write(beside, raw)
        _write(place, _told(replace(learned, version=version), beside.name, raw))
    except OSError as error:
        raise StoreError(
            f"what was learned cannot be written anew: {error.strerror}",
            place=str(place),
            mend="Make the folder writable and free some space; open the studio again then.",
        ) from error


def _version_of(folder: Path, alike: Alike, made: date) -> int:
    return _learn(folder, sums_in(folder), alike, made).version


def _learn(
    folder: Path, rows: Iterable[Mapping[str, Any]], alike: Alike, made: date
) -> ShopLearned:
    """Learn from the sums of a record and keep it beside the record."""
    learned = learn_from(rows, belongs_in(folder), alike=alike, made=made)
    if not learned.fittings:
        raise EvidenceError(
            "0 fittings with marked balls teach nothing",
            place="shop record",
            mend="Until there is one, comparisons lean on the physics alone.",
        )
    return _keep(folder / LEARNED, learned)


def _read(place: Path) -> ShopLearned:
    told = json.loads(place.read_bytes())
    if told["form"] != FORM:
        raise StoreError(
            f"what was learned is in the form {told['form']!r}",
            place=str(place),
            mend=f"Read it with the program that wrote it ({told['program']}), or learn anew.",
        )
    raw = place.with_name(told[_COVARIANCE]["file"]).read_bytes()
    if sha256(raw).hexdigest() != told[_COVARIANCE]["sha256"]:
        raise ValueError(told[_COVARIANCE]["file"])
    return learned_of(told, *_covariances(raw))


def _place(folder: Path, version: int) -> Path:
    return folder / f"{version:04d}.json"


def _numbers(folder: Path, ending: str) -> list[int]:
    names = [one.name.removesuffix(ending) for one in folder.glob(f"*{ending}")]
    return sorted(int(name) for name in names if name.isdecimal())


def _keep(folder: Path, learned: ShopLearned) -> ShopLearned:
    """Keep what was learned under the next free version and return it with that."""
    raw = _parquet(learned)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        version, beside = _claimed(folder, raw)
        kept = replace(learned, version=version)
        _write(_place(folder, version), _told(kept, beside.name, raw))
    except OSError as error:
        raise StoreError(
            f"what was learned cannot be kept: {error.strerror}",
            place=str(folder),
            mend="Make the folder writable and free some space; the version before stands.",
        ) from error
    return kept


def _told(learned: ShopLearned, beside: str, raw: bytes) -> bytes:
    covariance = {"file": beside, "sha256": sha256(raw).hexdigest()}
    return json.dumps(record_of(learned) | {_COVARIANCE: covariance}, indent=1).encode()


def _write(place: Path, whole: bytes) -> None:
    draft = place.with_suffix(".new")
    draft.write_bytes(whole)
    draft.replace(place)


def _claimed(folder: Path, raw: bytes) -> tuple[int, Path]:
    """Write the covariances under a version that nobody else has, and return both."""
    while True:
        version = max([0, *_numbers(folder, ".json"), *_numbers(folder, _ENDING)]) + 1
        place = folder / f"{version:04d}{_ENDING}"
        try:
            with place.open("xb") as file:
                file.write(raw)
                file.flush()
                os.fsync(file.fileno())
        except FileExistsError:
            continue
        return version, place


def _parquet(learned: ShopLearned) -> bytes:
    """Return the covariances of effects as a Parquet file, a row a member and response."""
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    tables = []
    for stage, responses in _STAGES:
        effects: Effects = getattr(learned, stage)
        size = effects.means.size
        rows = [(level, name, one.column) for level, name in effects.members for one in responses]
        tables.append(
            pa.table(
                {
                    "stage": pa.array([stage] * size, pa.string()),
                    "level": pa.array([row[0] for row in rows], pa.string()),
                    "name": pa.array([row[1] for row in rows], pa.string()),
                    "response": pa.array([row[2] for row in rows], pa.string()),
                    _COVARIANCE: pa.array(
                        effects.covariance.reshape(size, size).tolist(), pa.list_(pa.float64())
                    ),
                }
            )
        )
    into = BytesIO()
    pq.write_table(pa.concat_tables(tables), into, compression="zstd")
    return into.getvalue()


def _covariances(raw: bytes) -> Sequence[FloatArray]:
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    table = pq.read_table(BytesIO(raw))
    stages = np.array(table["stage"].to_pylist(), dtype=object)
    whole: list[Any] = table[_COVARIANCE].to_pylist()
    found = []
    for stage, _ in _STAGES:
        rows = [whole[place] for place in np.flatnonzero(stages == stage)]
        found.append(np.array(rows, dtype=float).reshape(len(rows), len(rows)))
    return found
