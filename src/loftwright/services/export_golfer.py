"""The files of one golfer in an export: who it is, the clubs, and every fitting."""

import json
from collections.abc import Iterator
from typing import Any, Final

from loftwright.domain.rack import Assembly, Rack
from loftwright.errors import StoreError
from loftwright.services.export_cells import plain, table, told
from loftwright.services.export_fitting import fitting_files
from loftwright.services.one_golfer import records_of
from loftwright.services.openings import opened_by, page_words
from loftwright.services.studio import Studio

_NOT_TOLD: Final = frozenset({"id", "own", "merged_into", "consents"})
"""Of a golfer: ids of the store, and what is told apart."""
_EVERY: Final = 1_000_000


def golfer_files(
    studio: Studio, golfer: str, *, results: bool = True
) -> Iterator[tuple[str, bytes]]:
    """Yield everything that is kept of a golfer, each file with its name.

    Parameters
    ----------
    studio : Studio
    golfer : str
        Any record of the golfer.
    results : bool
        Whether clubs are compared and reports printed.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    records = records_of(studio, golfer)
    yield "golfer.json", told([_golfer(studio, one) for one in records])
    bags = [json.loads(text) for one in records if (text := _bag(studio, one))]
    if bags:
        yield "bag.json", told(bags)
    clubs = list(_own_clubs(studio, records))
    if clubs:
        yield "own_clubs.json", told(clubs)
    opened = opened_by(studio, golfer, most=_EVERY)
    if opened:
        rows = [(one.at.isoformat(), one.device, one.by, page_words(one.page)) for one in opened]
        yield "openings.csv", table(("at", "device", "by", "page"), rows)
    fittings = [kept.value for kept in studio.store.fittings() if kept.value.golfer in records]
    for number, fitting in enumerate(reversed(fittings), start=1):
        folder = f"fittings/{number:02d}-{fitting.opened.isoformat()}"
        for name, content in fitting_files(studio, fitting, results=results):
            yield f"{folder}/{name}", content


def _golfer(studio: Studio, golfer: str) -> dict[str, Any]:
    kept = studio.store.golfer(golfer).value
    known = {name: one for name, one in plain(kept).items() if name not in _NOT_TOLD}
    return {**plain(studio.store.identity(golfer)), **known, "consents": plain(kept.consents)}


def _bag(studio: Studio, golfer: str) -> str:
    try:
        return studio.store.bag(golfer).value
    except StoreError:
        # Of a golfer whose key an earlier version destroyed: the bag went with it.
        return ""


def _own_clubs(studio: Studio, records: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    rack, cards = studio.store.rack(), studio.store.cards()
    for club in rack.assemblies.values():
        if club.owner in records:
            yield {
                **_club(rack, club),
                "measured": [_measured(one) for one in cards.get(club.id, ())],
            }


def _club(rack: Rack, club: Assembly) -> dict[str, Any]:
    head, shaft = rack.head_of(club), rack.shaft_of(club)
    return {
        "length": club.length,
        "setting": club.setting,
        "grip": club.grip,
        "head": _part(head),
        "shaft": _part(shaft),
    }


def _part(model: object) -> dict[str, Any]:
    told_of: dict[str, Any] = plain(model)
    return {name: one for name, one in told_of.items() if name not in {"id", "replaces"}}


def _measured(card: object) -> dict[str, Any]:
    told_of: dict[str, Any] = plain(card)
    return {name: one for name, one in told_of.items() if name != "item"}
