"""What an act tells as JSON, and back; numbers keep every digit."""

import json
import re
from dataclasses import asdict
from datetime import UTC, date, datetime
from functools import cache
from math import isfinite
from typing import Any, Final, get_args

from pydantic import TypeAdapter

from loftwright.domain.acts import Act
from loftwright.domain.golfer import Identity
from loftwright.domain.home import Home
from loftwright.domain.job_acts import JobAct
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.prediction import Forecast
from loftwright.errors import InputError, SchemaError

_CAPITAL: Final = re.compile(r"(?<!^)(?=[A-Z])")


def kind_of(act: type) -> str:
    """Return an act's kind in words: `HandedOver` is `handed_over`."""
    return _CAPITAL.sub("_", act.__name__).lower()


ACTS: Final = {kind_of(act): act for act in get_args(Act)}
"""Every act by its kind."""


def act_text(act: Act) -> str:
    """Return what an act tells as JSON.

    Raises
    ------
    InputError
        If it would not come back as it is: a number that is not finite, a text that is none.
    """
    kind = kind_of(type(act))
    return _whole(_adapter(kind), act, kind)


def act_of(kind: str, told: str) -> Act:
    """Return an act from its kind and what it tells.

    Raises
    ------
    SchemaError
        If this program does not know the kind.
    """
    if kind not in ACTS:
        raise SchemaError(
            f"the record holds {kind!r}, which this version does not know",
            place="acts",
            mend="Open the store with the version that wrote it, or a newer one.",
        )
    act: Act = _adapter(kind).validate_json(told)
    return act


JOB_ACTS: Final = {
    kind_of(act): act for one in get_args(JobAct) for act in (get_args(one) or (one,))
}
"""Every act of a job by its kind."""


def job_act_text(act: JobAct) -> str:
    """Return what an act of a job tells as JSON.

    Raises
    ------
    InputError
        If it would not come back as it is.
    """
    kind = kind_of(type(act))
    return _whole(_job_adapter(kind), act, kind)


def job_act_of(kind: str, told: str) -> JobAct:
    """Return an act of a job from its kind and what it tells.

    Raises
    ------
    SchemaError
        If this program does not know the kind.
    """
    if kind not in JOB_ACTS:
        raise SchemaError(
            f"a job's record holds {kind!r}, which this version does not know",
            place="job acts",
            mend="Open the store with the version that wrote it, or a newer one.",
        )
    act: JobAct = _job_adapter(kind).validate_json(told)
    return act


def figures_text(figures: PartFigures) -> str:
    """Return measured figures as JSON.

    Raises
    ------
    InputError
        If they would not come back as they are.
    """
    return _whole(_figures(), figures, "measured card")


def figures_of(text: str) -> PartFigures:
    """Return measured figures from JSON."""
    return _figures().validate_json(text)


def identity_text(identity: Identity) -> str:
    """Return who a golfer is as JSON."""
    return json.dumps(asdict(identity), ensure_ascii=False, default=date.isoformat)


def identity_of(text: str) -> Identity:
    """Return who a golfer is from JSON; what an earlier version did not write is not known."""
    told = json.loads(text)
    for name in ("agreed_to_fit", "growth_check"):
        if told.get(name) is not None:
            told[name] = date.fromisoformat(told[name])
    return Identity(**told)


def home_text(home: Home) -> str:
    """Return a home as JSON.

    Raises
    ------
    InputError
        If it would not come back as it is.
    """
    return _whole(_homes(), home, "home")


def home_of(text: str) -> Home:
    """Return a home from JSON."""
    return _homes().validate_json(text)


def forecasts_text(forecasts: tuple[Forecast, ...]) -> str:
    """Return forecasts as JSON.

    Raises
    ------
    InputError
        If they would not come back as they are.
    """
    return _whole(_forecasts(), forecasts, "prediction")


def forecasts_of(text: str) -> tuple[Forecast, ...]:
    """Return forecasts from JSON."""
    return _forecasts().validate_json(text)


def finite(name: str, value: float | None) -> float | None:
    """Return a number that the store can give back.

    Raises
    ------
    InputError
        If it is not finite.
    """
    if value is None or isfinite(value):
        return value
    raise InputError(
        f"{value} cannot be kept", place=name, mend="Leave out what was not measured."
    )


def instant_text(at: datetime) -> str:
    """Return an instant in UTC, as text that sorts by time.

    Raises
    ------
    InputError
        For an instant without a zone.
    """
    if at.tzinfo is None:
        raise InputError(
            f"the time {at.isoformat()} has no zone", place="at", mend="Give it in UTC."
        )
    return at.astimezone(UTC).isoformat()


def instant_of(text: str) -> datetime:
    """Return an instant from its text."""
    return datetime.fromisoformat(text)


def _whole(adapter: TypeAdapter[Any], value: object, what: str) -> str:
    # JSON has no word for what is not finite; it would be lost without a sound.
    try:
        text = adapter.dump_json(value).decode("utf-8")
        same = bool(adapter.validate_json(text) == value)
    except ValueError:
        same = False
    if not same:
        raise InputError(
            f"this {what.replace('_', ' ')} would not come back as it is: a number in it is not "
            "finite, or a text holds what is no character",
            place=what,
            mend="Leave out what was not measured, and send text as UTF-8.",
        )
    return text


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(ACTS[kind])


@cache
def _job_adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(JOB_ACTS[kind])


@cache
def _figures() -> TypeAdapter[PartFigures]:
    return TypeAdapter(PartFigures)


@cache
def _homes() -> TypeAdapter[Home]:
    return TypeAdapter(Home)


@cache
def _forecasts() -> TypeAdapter[tuple[Forecast, ...]]:
    return TypeAdapter(tuple[Forecast, ...])
