"""Where a studio's shop record lies, who may stand in it, and what could not be written."""

import json
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path
from typing import Final

from loftwright.domain.fitting import Fitting
from loftwright.services.one_golfer import first_record
from loftwright.services.studio import Studio
from loftwright.store.golfers import ERASED
from loftwright.store.overview import Outline

FOLDER: Final = "shop"
"""In the data folder; what is in it can be made again from the fittings."""
TROUBLE: Final = "shop record trouble"
"""Of the setting that holds what could not be written."""


def record_folder(studio: Studio) -> Path:
    """Return the folder of a studio's shop record."""
    return studio.folder / FOLDER


def code_of_golfer(golfer: str) -> str:
    """Return the code that stands for a golfer in the shop record."""
    return sha256(f"golfer {golfer}".encode()).hexdigest()[:16]


def place_of(studio: Studio, fitting: Fitting) -> tuple[str, str]:
    """Return under which names a fitting stands in the record: its own and its golfer's code."""
    return fitting.id, code_of_golfer(first_record(studio, fitting.golfer))


def may_stand(studio: Studio, fitting: Fitting) -> bool:
    """Return whether a fitting may stand in the shop record, once it is closed.

    Its golfer agreed, by the record that stands for all of that golfer's, and was not erased, and
    it is not invented.
    """
    if fitting.invented:
        return False
    first = first_record(studio, fitting.golfer)
    if not studio.store.golfer(first).value.consents.shop_record:
        return False
    return all(studio.store.identity(one) != ERASED for one in {first, fitting.golfer})


def places_allowed(studio: Studio, outlines: Sequence[Outline]) -> dict[str, tuple[str, str]]:
    """Return the fittings that may stand in the record, with the names they stand under in it.

    As `may_stand` and `place_of` of each, asking only for golfers who agreed.
    """
    agreed = studio.store.agreed()
    golfers = {one.golfer for one in outlines if not one.invented and one.golfer in agreed}
    codes = {
        one: code_of_golfer(agreed[one])
        for one in golfers
        if all(studio.store.identity(record) != ERASED for record in {one, agreed[one]})
    }
    return {
        one.fitting: (one.fitting, codes[one.golfer])
        for one in outlines
        if not one.invented and one.golfer in codes
    }


def record_trouble(studio: Studio) -> dict[str, str]:
    """Return what of the shop record could not be written, by fitting or golfer."""
    told: dict[str, str] = json.loads(studio.store.setting(TROUBLE).value or "{}")
    return told


def note_trouble(studio: Studio, of: str, why: str) -> None:
    """Write down that something could not be written; without a reason that it was since."""
    with studio.lock:
        kept = studio.store.setting(TROUBLE)
        known: dict[str, str] = json.loads(kept.value or "{}")
        told = {name: one for name, one in known.items() if name != of}
        if why:
            told[of] = why
        if told != known:
            text = json.dumps(told, ensure_ascii=False, sort_keys=True)
            studio.store.set_setting(TROUBLE, text, version=kept.version)


def forget_trouble(studio: Studio) -> None:
    """Write down that everything was written since."""
    kept = studio.store.setting(TROUBLE)
    if kept.value not in {"", "{}"}:
        studio.store.set_setting(TROUBLE, "{}", version=kept.version)
