"""What people type freely: kept under the golfer's key, for it may name somebody.

A sealed text stands where a clear one would, so that records written before read as they did.
"""

import json
import re
from collections.abc import Callable
from typing import Final, TypeAlias

from loftwright.domain.golfer import Golfer
from loftwright.store.keys import KeyRing

Change: TypeAlias = Callable[[str], str]

SEALED: Final = "sealed:"
"""What stands before a sealed text."""

TYPED: Final = frozenset({"word", "words"})
"""Fields of acts that a person types freely: a feeling's word, a mark said in words."""

_TOKEN: Final = re.compile(rf"{SEALED}gAAAA[A-Za-z0-9_-]+=*")


class FreeText:
    """Seals and opens one golfer's free text.

    Parameters
    ----------
    keys : KeyRing
    golfer : str
    """

    def __init__(self, keys: KeyRing, golfer: str) -> None:
        self._keys, self._golfer = keys, golfer
        self._opener: Callable[[bytes], str | None] | None = None

    def seal(self, text: str) -> str:
        """Return a text sealed; nothing stays nothing.

        Raises
        ------
        InputError
            If the text is no text.
        StoreError
            If the golfer's key is gone.
        """
        return SEALED + self._keys.seal(self._golfer, text).decode("ascii") if text else ""

    def opened(self, text: str) -> str:
        """Return a text as it was typed; empty when the golfer's key is gone."""
        if not _TOKEN.fullmatch(text):
            return text
        if self._opener is None:
            self._opener = self._keys.opener(self._golfer)
        return self._opener(text.removeprefix(SEALED).encode("ascii")) or ""

    def seal_act(self, told: str) -> str:
        """Return what an act tells with its free text sealed."""
        return _changed(told, TYPED, self.seal) if '"word' in told else told

    def opened_act(self, told: str) -> str:
        """Return what an act tells with its free text as it was typed."""
        return _changed(told, TYPED, self.opened) if SEALED in told else told

    def seal_golfer(self, golfer: Golfer, home: str) -> dict[str, str]:
        """Return a golfer's free text sealed, by its columns.

        Parameters
        ----------
        golfer : Golfer
        home : str
            Home as JSON.
        """
        return {
            "goal": self.seal(golfer.goal),
            "looks": self.seal(golfer.looks),
            "home": _changed(home, {"name"}, self.seal),
        }

    def opened_home(self, home: str) -> str:
        """Return a home as JSON with its name as it was typed."""
        return _changed(home, {"name"}, self.opened) if SEALED in home else home


def _changed(told: str, names: frozenset[str] | set[str], change: Change) -> str:
    return json.dumps(_walked(json.loads(told), names, change), ensure_ascii=False)


def _walked(value: object, names: frozenset[str] | set[str], change: Change) -> object:
    if isinstance(value, list):
        return [_walked(one, names, change) for one in value]
    if isinstance(value, dict):
        return {
            name: change(one)
            if name in names and isinstance(one, str)
            else _walked(one, names, change)
            for name, one in value.items()
        }
    return value
