"""Which pages a paired device may see by its role."""

import re
from typing import Final

OPEN: Final = ("/static", "/pair", "/theme", "/health")
"""Pages that need no key."""

LOCKABLE: Final = ("fitter", "workshop")
"""Roles of devices that a PIN locks; a golfer's screen and a feed go on."""

IN_PROGRESS: Final = "/api/fittings"
"""Where a program asks into which fittings balls may be posted."""

ROLE_NAMES: Final = {
    "fitter": "fitter",
    "workshop": "workshop",
    "screen": "golfer’s screen",
    "feed": "shot feed",
}
FIRST_PAGES: Final = {
    "fitter": "/",
    "workshop": "/rack",
    "screen": "/screen",
    "feed": IN_PROGRESS,
}
_OWN_PATHS: Final = {"workshop": ("/rack", "/bench", "/build"), "screen": ("/screen",)}
_OWN_ACTS: Final = {
    "feed": (
        ("GET", re.compile(re.escape(IN_PROGRESS))),
        ("POST", re.compile(rf"{re.escape(IN_PROGRESS)}/[^/]+/shots")),
    )
}


def is_open(path: str) -> bool:
    """Return whether a page needs no key."""
    return _is_below(path, OPEN)


def may_see(role: str, path: str, method: str = "GET") -> bool:
    """Return whether devices of a role may see a page, or send something to it.

    The fitter sees everything, the workshop no golfer, a golfer's screen only its own page. A
    shot feed posts balls and reads nothing but the answer and which fittings are in progress.
    """
    if role == "fitter" or is_open(path):
        return True
    if any(method == one and where.fullmatch(path) for one, where in _OWN_ACTS.get(role, ())):
        return True
    return _is_below(path, _OWN_PATHS.get(role, ()))


def stays_open(path: str, method: str) -> bool:
    """Return whether a locked machine still answers: to a feed on it, and to a golfer's screen."""
    return not is_open(path) and any(may_see(role, path, method) for role in ("feed", "screen"))


def _is_below(path: str, folders: tuple[str, ...]) -> bool:
    return any(path == folder or path.startswith(f"{folder}/") for folder in folders)
