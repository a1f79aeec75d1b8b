"""What the shop learned with a golfer who is erased is learned again without, version by version.

A fitting is compared by the version that was newest when its visit opened. So a version is not
replaced by what the record holds today but by what it would have been: from the fittings that were
closed when it was made, without the golfer's.
"""

import json
import shutil
import tempfile
from collections.abc import Collection
from datetime import date
from pathlib import Path
from typing import Final

from loftwright.domain.acts import Closed
from loftwright.errors import StoreError
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import LEARNED, learned_versions, replace_learned
from loftwright.services.shop_likeness import alike_of
from loftwright.services.studio import Studio
from loftwright.shop.engine import sums_in
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learning import learn_from
from loftwright.shop.read_back import belongs_in
from loftwright.shop.record import FILE, columns_in, files, standing
from loftwright.store.golfers import ERASED

_DRAFT: Final = ".without-"


def taught(studio: Studio, golfers: Collection[str]) -> tuple[int, ...]:
    """Return the versions that records of a golfer taught, or may have, the oldest first.

    Of a golfer who took the consent back nobody knows when: every version since the first
    fitting was closed counts.
    """
    closed = [
        at
        for kept in studio.store.fittings()
        if kept.value.golfer in golfers and not kept.value.invented
        if (at := closed_on(studio, kept.value.id)) is not None
    ]
    asked = any(
        golfer.consents.shop_record or golfer.consents.given_on is not None
        for golfer in (studio.store.golfer(one).value for one in golfers)
    )
    if not closed or not asked:
        return ()
    return tuple(one for one in learned_versions(studio) if _made(studio, one) >= min(closed))


def learn_without(
    studio: Studio, versions: Collection[int], golfers: Collection[str]
) -> tuple[int, ...]:
    """Learn versions again without a golfer and return those that nobody else had taught.

    Parameters
    ----------
    studio : Studio
    versions : collection of int
    golfers : collection of str
        Records that are out of the shop record already.

    Raises
    ------
    StoreError
        If the record cannot be read, or a version cannot be written.
    """
    folder = record_folder(studio)
    for left in folder.glob(f"{_DRAFT}*"):
        shutil.rmtree(left, ignore_errors=True)
    closed = _closings(studio, golfers) if versions else {}
    gone = []
    for version in sorted(versions):
        made = _made(studio, version)
        by_then = [one for one, at in closed.items() if at <= made]
        learned = _learned(studio, folder, by_then, made)
        replace_learned(studio, version, learned)
        if learned is None:
            gone.append(version)
    return tuple(gone)


def closed_on(studio: Studio, fitting: str) -> date | None:
    """Return the day on which a fitting was closed last; None while it is open."""
    if not studio.standing(fitting).closed:
        return None
    at = max(one.at for one in studio.record(fitting) if isinstance(one.act, Closed))
    return at.astimezone(studio.zone).date()


def _closings(studio: Studio, golfers: Collection[str]) -> dict[str, date]:
    """Return when the fittings of others in the record were closed."""
    there = {fitting for fitting, _ in standing(record_folder(studio))}
    return {
        kept.value.id: at
        for kept in studio.store.fittings()
        if kept.value.id in there and kept.value.golfer not in golfers
        if studio.store.identity(kept.value.golfer) != ERASED
        if (at := closed_on(studio, kept.value.id)) is not None
    }


def _made(studio: Studio, version: int) -> date:
    """Return the day on which a version was learned; today where it does not say."""
    place = record_folder(studio) / LEARNED / f"{version:04d}.json"
    try:
        return date.fromisoformat(json.loads(place.read_bytes())["made"])
    except (OSError, ValueError, KeyError, TypeError):
        return studio.today()


def _learned(
    studio: Studio, folder: Path, fittings: Collection[str], made: date
) -> ShopLearned | None:
    """Return what some fittings of a record teach; None where they teach nothing."""
    if not fittings:
        return None
    try:
        with tempfile.TemporaryDirectory(prefix=_DRAFT, dir=folder) as draft:
            _copy_some(folder, Path(draft), fittings)
            rows = sums_in(Path(draft))
            learned = learn_from(rows, belongs_in(Path(draft)), alike=alike_of(studio), made=made)
    except OSError as error:
        raise StoreError(
            f"the shop record cannot be read: {error.strerror}",
            place=str(folder),
            mend="Make the folder writable and free some space; open the studio again then.",
        ) from error
    return learned if learned.fittings else None


def _copy_some(folder: Path, to: Path, fittings: Collection[str]) -> None:
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.compute as pc  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    names = pa.array(sorted(fittings), pa.string())
    for file in files(folder):
        whole = columns_in(file)
        some = whole.filter(pc.is_in(whole["fitting"], value_set=names))
        if some.num_rows:
            place = to / file.parent.name / FILE
            place.parent.mkdir(parents=True)
            pq.write_table(some, place, compression="zstd")
