"""Two records of one golfer merged, and taken apart again."""

import json
from dataclasses import asdict, dataclass, replace
from datetime import date, datetime
from typing import Any, Final

from loftwright.domain.golfer import Consents, Golfer
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.one_golfer import first_record, records_of
from loftwright.services.quiet import running
from loftwright.services.shop_leaving import golfer_again
from loftwright.services.studio import Studio

NAME: Final = "merged:"
"""Begins the setting that tells how a second record stood before."""
_AGREED: Final = ("keep", "contact", "publish", "shop_record")


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """A second record of a golfer.

    Attributes
    ----------
    first, second : str
        Ids of the record that stands for both, and of the one that points to it.
    at : datetime
    by : str
    """

    first: str
    second: str
    at: datetime
    by: str


def merge(studio: Studio, second: str, first: str, *, by: str = "") -> Merged:
    """Say that two records are of one golfer; from now on the first stands for both.

    Fittings stay where they are, each under its own key. Of the consents the stricter of the two
    hold for both, until the golfer is asked again. Where the first has no own club, no bag or no
    growth check, the second's is the golfer's.

    Parameters
    ----------
    studio : Studio
    second, first : str
        Ids of the record that will point, and of the one that stands for both.
    by : str
        Who says so.

    Raises
    ------
    InputError
        If they are one record already, or play with different hands.
    ConflictError
        If one of them has a fitting under way, or the first points to another one itself.
    """
    with studio.lock:
        records = {*records_of(studio, first), *records_of(studio, second)}
        here, there = studio.store.golfer(first), studio.store.golfer(second)
        _check(studio, here.value, there.value, records)
        told = {
            "first": first,
            "at": studio.now().isoformat(),
            "by": by,
            "consents": _told(there.value.consents),
            "consents_first": _told(here.value.consents),
            "own_first": here.value.own,
            "seconds": sorted(records_of(studio, second)[1:]),
        }
        agreed = _stricter(here.value.consents, there.value.consents)
        own = here.value.own or there.value.own
        _keep(studio, second, json.dumps(told, ensure_ascii=False, sort_keys=True))
        studio.store.change_golfer(
            replace(here.value, consents=agreed, own=own), version=here.version
        )
        _carry_bag(studio, second, first)
        _carry_days(studio, second, first)
        for one in records_of(studio, second):
            kept = studio.store.golfer(one)
            studio.store.change_golfer(
                replace(kept.value, merged_into=first, consents=agreed), version=kept.version
            )
        golfer_again(studio, records)
    return Merged(first=first, second=second, at=studio.now(), by=by)


def take_apart(studio: Studio, second: str) -> None:
    """Let a second record stand for itself again, as it was before it was merged.

    Consents go back to what each record said itself, unless the golfer was asked since: then the
    answer stands for both.

    Raises
    ------
    NotFoundError
        If the record is no second one.
    ConflictError
        If one of them has a fitting under way.
    """
    with studio.lock:
        told = _before(studio, second)
        first = studio.store.golfer(told["first"])
        _refuse_running(studio, {first.value.id, second, *told["seconds"]})
        for one in (second, *told["seconds"]):
            kept = studio.store.golfer(one)
            into = None if one == second else second
            if kept.value.merged_into != first.value.id:
                continue
            consents = _consents(told["consents"]) if one == second else kept.value.consents
            studio.store.change_golfer(
                replace(
                    kept.value,
                    merged_into=into,
                    consents=_since(told, first.value.consents, consents),
                ),
                version=kept.version,
            )
        before = _consents(told["consents_first"])
        others = len(records_of(studio, first.value.id)) > 1
        consents = first.value.consents if others else _since(told, first.value.consents, before)
        own = told["own_first"] if first.value.own == _own(studio, second) else first.value.own
        studio.store.change_golfer(
            replace(first.value, consents=consents, own=own), version=first.version
        )
        _keep(studio, second, "")
        golfer_again(studio, {first.value.id, second, *told["seconds"]})


def merged_into(studio: Studio, first: str) -> tuple[Merged, ...]:
    """Return the second records that point to one, the oldest first."""
    found = []
    for one in records_of(studio, first)[1:]:
        text = studio.store.setting(f"{NAME}{one}").value
        if text:
            told = json.loads(text)
            found.append(
                Merged(
                    first=first,
                    second=one,
                    at=datetime.fromisoformat(told["at"]),
                    by=told["by"],
                )
            )
    return tuple(sorted(found, key=lambda one: one.at))


def _check(studio: Studio, first: Golfer, second: Golfer, records: set[str]) -> None:
    if first_record(studio, second.id) == first_record(studio, first.id):
        raise InputError(
            "these are records of one golfer already",
            place="second",
            mend="Choose another record.",
        )
    if first.merged_into is not None or second.merged_into is not None:
        raise ConflictError(
            "one of these is a second record of another one by now",
            place="second",
            mend="Merge the records that stand for both, or take that one apart first.",
        )
    if first.hand is not second.hand:
        raise InputError(
            f"one record plays {first.hand}-handed and the other {second.hand}-handed",
            place="second",
            mend="They are two golfers, or one hand was written down wrongly: mend that first.",
        )
    if first.minor is not second.minor:
        raise InputError(
            "one record is a minor’s and the other is not",
            place="second",
            mend="Write down in both whether a guardian consents; then merge them.",
        )
    _refuse_running(studio, records)


def _refuse_running(studio: Studio, records: set[str]) -> None:
    for one in running(studio):
        if studio.store.fitting(one.fitting).value.golfer in records:
            raise ConflictError(
                f"a fitting of this golfer runs in {one.bay}",
                place="second",
                mend="Close it first, or wait half an hour after its last ball.",
            )


def _carry_bag(studio: Studio, second: str, first: str) -> None:
    """Give the record that stands for both the second's bag, where it has none."""
    here, there = studio.store.bag(first), studio.store.bag(second)
    if there.value and not here.value:
        studio.store.set_bag(first, there.value, version=here.version)


def _carry_days(studio: Studio, second: str, first: str) -> None:
    """Give the record that stands for both a minor's days of the second, where it has none."""
    here, there = studio.store.identity(first), studio.store.identity(second)
    both = replace(
        here,
        agreed_to_fit=here.agreed_to_fit or there.agreed_to_fit,
        growth_check=here.growth_check or there.growth_check,
    )
    if both != here:
        studio.store.change_identity(first, both)


def _stricter(one: Consents, other: Consents) -> Consents:
    agreed = {name: getattr(one, name) and getattr(other, name) for name in _AGREED}
    days = [day for day in (one.given_on, other.given_on) if day is not None]
    return Consents(**agreed, given_on=min(days, default=None))


def _since(told: dict[str, Any], now: Consents, before: Consents) -> Consents:
    """Return consents as they were before, unless the golfer was asked since."""
    together = _stricter(_consents(told["consents_first"]), _consents(told["consents"]))
    return before if now == together else now


def _own(studio: Studio, golfer: str) -> str | None:
    return studio.store.golfer(golfer).value.own


def _before(studio: Studio, second: str) -> dict[str, Any]:
    text = studio.store.setting(f"{NAME}{second}").value
    if not text or studio.store.golfer(second).value.merged_into is None:
        raise NotFoundError(
            "this is no second record of a golfer", place="second", mend="Look at the list again."
        )
    told: dict[str, Any] = json.loads(text)
    return told


def _keep(studio: Studio, second: str, text: str) -> None:
    name = f"{NAME}{second}"
    studio.store.set_setting(name, text, version=studio.store.setting(name).version)


def _told(consents: Consents) -> dict[str, object]:
    day = consents.given_on
    return asdict(consents) | {"given_on": None if day is None else day.isoformat()}


def _consents(told: dict[str, Any]) -> Consents:
    day = told["given_on"]
    return Consents(**(told | {"given_on": None if day is None else date.fromisoformat(day)}))
