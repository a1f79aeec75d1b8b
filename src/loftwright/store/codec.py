"""What an act tells as JSON, and back; numbers keep every digit."""

import re
from datetime import datetime
from functools import cache
from typing import Any, Final, get_args

from pydantic import TypeAdapter

from loftwright.domain.acts import Act
from loftwright.domain.home import Home
from loftwright.errors import SchemaError

_CAPITAL: Final = re.compile(r"(?<!^)(?=[A-Z])")


def kind_of(act: type) -> str:
    """Return an act's kind in words: `HandedOver` is `handed_over`."""
    return _CAPITAL.sub("_", act.__name__).lower()


ACTS: Final = {kind_of(act): act for act in get_args(Act)}
"""Every act by its kind."""


def act_text(act: Act) -> str:
    """Return what an act tells as JSON."""
    return _adapter(kind_of(type(act))).dump_json(act).decode("utf-8")


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


def home_text(home: Home) -> str:
    """Return a home as JSON."""
    return _homes().dump_json(home).decode("utf-8")


def home_of(text: str) -> Home:
    """Return a home from JSON."""
    return _homes().validate_json(text)


def instant_text(at: datetime) -> str:
    """Return an instant as text that sorts by time.

    Raises
    ------
    ValueError
        For an instant without a zone.
    """
    if at.tzinfo is None:
        raise ValueError("an instant needs its zone")
    return at.isoformat()


def instant_of(text: str) -> datetime:
    """Return an instant from its text."""
    return datetime.fromisoformat(text)


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(ACTS[kind])


@cache
def _homes() -> TypeAdapter[Home]:
    return TypeAdapter(Home)
