"""The sentences that the source of this version gives to its log: no other is written."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final

import loftwright

LOST: Final = "lines of the log were lost"
UNMADE: Final = "a line could not be made"
"""What the log says of itself, where no module speaks."""
_CALLS: Final = frozenset({"debug", "info", "warning", "error", "exception", "critical", "log"})
_FILLED: Final = re.compile(r"%(?:\(\w+\))?[-#0-9.+ ]*[a-zA-Z]")


def sentences() -> frozenset[str]:
    """Return every sentence that the source gives to a log."""
    modules = Path(loftwright.__file__).parent.rglob("*.py")
    return frozenset({LOST, UNMADE}).union(*(sentences_of(str(module)) for module in modules))


@cache
def sentences_of(module: str) -> frozenset[str]:
    """Return the sentences that one module gives to its log; none where it cannot be read."""
    try:
        text = Path(module).read_text(encoding="utf-8")
    except OSError:
        return frozenset()
    return frozenset(map(filled_out, logged_in(text))) if "getLogger(" in text else frozenset()


def logged_in(source: str) -> Iterator[str]:
    """Yield what a module's calls of `log` say, which stands first or behind a level.

    A call whose words are put together while the program runs yields nothing.
    """
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
            continue
        whose = node.func.value
        if isinstance(whose, ast.Name) and whose.id == "log" and node.func.attr in _CALLS:
            said = node.args[1 if node.func.attr == "log" else 0]
            if isinstance(said, ast.Constant) and isinstance(said.value, str):
                yield said.value


def filled_out(message: str) -> str:
    """Return a sentence of the source as lines write it, without what it is filled with."""
    return _FILLED.sub("…", message)
