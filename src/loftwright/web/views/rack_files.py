"""What a file would do to the rack, in words, row by row."""

from dataclasses import dataclass
from datetime import tzinfo

from loftwright.domain.rack import Assembly, HeadModel, Piece, RackItem, ShaftModel
from loftwright.report.numbers import count, listed
from loftwright.services.rack_back import LastImport
from loftwright.services.rack_in import Coming

MOST_SHOWN = 200
MOST_IN_THE_WAY = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class ComingRow:
    """One row of the file."""

    where: str
    what: str
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ComingView:
    """The page of files.

    Attributes
    ----------
    refused, coming : tuple of ComingRow
        What cannot come in, and what would.
    more : int
        Rows that would come in and are not shown.
    seen : str
        Names the plan that was looked at; empty while nothing can come in.
    """

    sentence: str
    lead: str
    refused: tuple[ComingRow, ...] = ()
    coming: tuple[ComingRow, ...] = ()
    more: int = 0
    button: str = ""
    seen: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LastView:
    """The newest file that came in.

    Attributes
    ----------
    words : str
    in_the_way : tuple of str
        Why it cannot be taken back; empty if it can.
    version : int
        What the button sends.
    """

    words: str
    in_the_way: tuple[str, ...]
    more: int
    button: str
    version: int


def last_view(last: LastImport | None, zone: tzinfo | None) -> LastView | None:
    """Return what is told of the newest file that came in.

    Parameters
    ----------
    last : LastImport, optional
    zone : tzinfo, optional
        The shop's.
    """
    if last is None:
        return None
    at = f"{last.at.astimezone(zone):%d %B %Y, %H:%M}".lstrip("0")
    rows = count(last.came.rows, "row")
    return LastView(
        words=f"{last.name} came in on {at}: {rows}.",
        in_the_way=tuple(
            f"{one[:1].upper()}{one[1:]}." for one in last.in_the_way[:MOST_IN_THE_WAY]
        ),
        more=max(0, len(last.in_the_way) - MOST_IN_THE_WAY),
        button=f"Take {rows} back",
        version=last.version,
    )


def coming_view(coming: Coming | None, name: str, items: int) -> ComingView:
    """Return the page of files, before or after a file was looked at.

    Parameters
    ----------
    coming : Coming, optional
    name : str
        Of the file.
    items : int
        Items of the shop's rack.
    """
    if coming is None:
        holds = f"{count(items, 'item')} can be taken out" if items else "The rack is empty"
        return ComingView(
            sentence=f"{holds}; a file is looked at before anything comes in.",
            lead="The format is open and stays readable without this program. Golfers and their "
            "own clubs are never in it.",
        )
    if coming.refused:
        return ComingView(
            sentence=f"{name} cannot come in: {count(len(coming.refused), 'row')} must be mended.",
            lead="Nothing was changed. Mend the rows in the file and choose it again.",
            refused=tuple(
                ComingRow(
                    where=one.where,
                    what=one.place,
                    told=f"{one.message[:1].upper()}{one.message[1:]}. {one.mend}",
                )
                for one in coming.refused[:MOST_SHOWN]
            ),
        )
    return _would(coming, name)


def _would(coming: Coming, name: str) -> ComingView:
    rows = [ComingRow(where=where, what="new", told=_item(item)) for where, item in coming.new]
    rows += [
        ComingRow(
            where=one.where,
            what="changed",
            told=f"{_item(one.item)}: "
            + "; ".join(f"{key} from {was} to {now}" for key, was, now in one.differs),
        )
        for one in coming.changed
    ]
    rows += [
        ComingRow(where="a look", what="new", told=f"{one.piece}: {one.finding}, {one.words}")
        for one in coming.looks
    ]
    rows += [
        ComingRow(where="a profile", what="new", told=f"{one.piece}: {one.bench}, {one.day}")
        for one in coming.profiles
    ]
    same = f"{count(coming.same, 'row')} of it stand here already."
    if not rows:
        return ComingView(
            sentence=f"{name} would change nothing.", lead=same if coming.same else "It is empty."
        )
    new = len(coming.new) + len(coming.looks) + len(coming.profiles)
    parts = [f"add {count(new, 'row')}"] if new else []
    parts += [f"change {len(coming.changed)}"] if coming.changed else []
    return ComingView(
        sentence=f"{name} would {listed(parts)}.",
        lead=f"Nothing was changed yet. {same if coming.same else ''}".strip(),
        coming=tuple(rows[:MOST_SHOWN]),
        more=max(0, len(rows) - MOST_SHOWN),
        button=f"Bring in {count(len(rows), 'row')}",
        seen=coming.seen,
    )


def _item(item: RackItem) -> str:
    match item:
        case HeadModel() | ShaftModel():
            kind = "head" if isinstance(item, HeadModel) else "shaft"
            return f"{kind} {item.name} ({item.id})"
        case Piece():
            return f"sample {item.label or item.id} of {item.model}"
        case Assembly():
            return f"club {item.id} of {item.head} and {item.shaft}"
    return f"sleeve {item.name} ({item.id})"
