"""The number of a request, by which a page and the log speak of the same thing."""

import secrets

from fastapi import Request


def new_number() -> str:
    """Return a request's number, short enough to be read out."""
    figures = f"{secrets.randbelow(10**8):08d}"
    return f"{figures[:4]}-{figures[4:]}"


def number_of(request: Request) -> str:
    """Return the number of a request; empty outside the journal."""
    return getattr(request.state, "number", "")
