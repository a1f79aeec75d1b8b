"""What a command of the command line said."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a command said."""

    code: int
    out: str
    err: str

    @property
    def record(self) -> dict[str, Any]:
        """The JSON object on standard output."""
        made: dict[str, Any] = json.loads(self.out, parse_constant=_refuse)
        return made

    @property
    def error(self) -> dict[str, Any]:
        """The JSON error object on standard error."""
        made: dict[str, Any] = json.loads(self.err)["error"]
        return made


def _refuse(constant: str) -> None:
    raise AssertionError(f"{constant} in JSON")


Cli = Callable[..., Outcome]
