"""What an erase would take, what it would leave, and when the last copy of a key is gone."""

from dataclasses import dataclass

from loftwright.report.numbers import count, listed
from loftwright.services.erasing_learned import taught
from loftwright.services.erasing_published import published_with
from loftwright.services.key_copies import KEPT
from loftwright.services.one_golfer import records_of
from loftwright.services.restore_aside import KEPT as ASIDE
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.studio import Studio
from loftwright.shop.record import files, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Going:
    """What an erase reaches.

    Attributes
    ----------
    initials : str
    records, fittings, jobs, balls : int
        Records of the golfer, fittings, clubs ordered, and balls hit.
    record_balls : int
        In the shop record.
    versions : tuple of int
        Of what the shop learned, that are learned again without the golfer.
    published : tuple of int
        Comparisons behind which the golfer stands.
    """

    initials: str
    records: int
    fittings: int
    jobs: int
    balls: int
    record_balls: int
    versions: tuple[int, ...]
    published: tuple[int, ...]


def look(studio: Studio, golfer: str) -> Going:
    """Return what erasing a golfer would reach; nothing is changed.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    StoreError
        If the shop record cannot be read.
    """
    records = records_of(studio, golfer)
    fittings = [kept.value.id for kept in studio.store.fittings() if kept.value.golfer in records]
    codes = {code_of_golfer(one) for one in records}
    folder = record_folder(studio)
    there = standing(folder) if files(folder) else {}
    return Going(
        initials=studio.store.identity(records[0]).initials,
        records=len(records),
        fittings=len(fittings),
        jobs=len(set(studio.store.jobs()) & set(fittings)),
        balls=sum(len(studio.standing(one).balls) for one in fittings),
        record_balls=sum(balls for (_, code), balls in there.items() if code in codes),
        versions=taught(studio, records),
        published=published_with(studio, records),
    )


def said(going: Going) -> tuple[str, ...]:
    """Return in words what goes, what is worked out again, what stays, and what takes longer."""
    goes = [
        count(going.fittings, "fitting"),
        count(going.balls, "ball"),
        f"{count(going.jobs, 'order')} with what was built, checked and played",
    ]
    lines = [
        f"Goes: {going.initials}, name, contact, goal, consents, bag and own clubs; "
        f"{listed(goes)}; every word that was typed.",
    ]
    if going.record_balls:
        lines.append(f"Goes from the shop record: {count(going.record_balls, 'ball')}.")
    if going.versions:
        numbers = listed([str(one) for one in going.versions])
        lines.append(
            f"Learned again without the golfer: version {numbers}. Other fittings that were "
            "compared by it move by what the golfer had taught."
        )
    if going.published:
        numbers = listed([str(one) for one in going.published])
        lines.append(
            f"Comparison {numbers}: the golfer stands behind it no more; with fewer than five "
            "left it is withdrawn."
        )
    lines += [
        "Stays: how often parts of the rack were hit, as numbers; every other golfer’s results.",
        "Takes longer: older backups keep the golfer’s rows, with names and words sealed, until "
        f"they are written over, and what a restore put aside keeps them for {ASIDE.days} days. "
        f"The last copy of the key is gone within {KEPT.days} days, and a restore erases the "
        "golfer again.",
        "Not reached: paper, files that were handed out, and copies that somebody made by hand.",
    ]
    return tuple(lines)
