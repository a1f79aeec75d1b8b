"""One table from the kind of an error to the status of its answer, and how the answer looks."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from types import MappingProxyType
from typing import Any, Final
from urllib.parse import urlsplit

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from loftwright.errors import (
    ConflictError,
    ConvergenceError,
    EvidenceError,
    InputError,
    IntakeError,
    LoftwrightError,
    NotFoundError,
    StoreError,
    TooManyError,
    UsageError,
)
from loftwright.web.numbers import number_of
from loftwright.web.render import render
from loftwright.web.roles import FIRST_PAGES

STATUSES: Final[Mapping[type[LoftwrightError], int]] = MappingProxyType(
    {
        UsageError: 400,
        TooManyError: 429,
        InputError: 422,
        IntakeError: 422,
        EvidenceError: 409,
        ConflictError: 409,
        NotFoundError: 404,
        StoreError: 503,
        ConvergenceError: 422,
    }
)

SOON: Final = 5
"""Seconds after which what could not be done is worth another try (judgement)."""

_MENDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "missing": "Fill it in.",
        "int_parsing": "Give a whole number.",
        "int_from_float": "Give a whole number.",
        "int_type": "Give a whole number.",
        "float_parsing": "Give a number.",
        "float_type": "Give a number.",
        "finite_number": "Give a number that is not infinite.",
        "bool_parsing": "Give yes or no.",
        "date_parsing": "Give a day as 2026-11-25.",
        "date_from_datetime_parsing": "Give a day as 2026-11-25.",
        "string_type": "Give text.",
    }
)
_LIMITS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "greater_than": "Give more than {gt}.",
        "greater_than_equal": "Give {ge} or more.",
        "less_than": "Give less than {lt}.",
        "less_than_equal": "Give {le} or less.",
        "string_too_short": "Give {min_length} letters or more.",
        "string_too_long": "Give {max_length} letters or fewer.",
        "string_pattern_mismatch": "Give it in the form {pattern}.",
        "enum": "Give {expected}.",
        "literal_error": "Give {expected}.",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way on from an error page."""

    name: str
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What an error page says.

    Attributes
    ----------
    ways : tuple of Way
        Two ways on.
    number : str
        Under which the log has it.
    """

    status: int
    message: str
    place: str
    mend: str
    ways: tuple[Way, ...]
    number: str


class _Defect(LoftwrightError):
    kind = "defect"


def status_of(error: LoftwrightError) -> int:
    """Return the status of an error, that of its nearest kind in the table."""
    return next((STATUSES[kind] for kind in type(error).__mro__ if kind in STATUSES), 500)


def wants_json(request: Request) -> bool:
    """Return whether the asker is a program or a script rather than a page."""
    if request.url.path.startswith("/api/"):
        return True
    accept = request.headers.get("accept", "")
    return "application/json" in accept and "text/html" not in accept


def retry_after(seconds: int = SOON) -> dict[str, str]:
    """Return the header that says after how many seconds to ask again (RFC 9110, 10.2.3)."""
    return {"Retry-After": str(seconds)}


def error_answer(
    request: Request,
    error: LoftwrightError,
    status: int | None = None,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """Return an error as JSON or as a page, whichever the asker wants.

    Parameters
    ----------
    request : Request
    error : LoftwrightError
    status : int, optional
        That of the table without it.
    headers : mapping of str to str, optional
        More headers of the answer.
    """
    code = status_of(error) if status is None else status
    if isinstance(error, TooManyError):
        headers = {**(headers or {}), **retry_after(error.seconds)}
    elif code == HTTPStatus.SERVICE_UNAVAILABLE:
        headers = {**(headers or {}), **retry_after(SOON)}
    # The journal writes down its kind and where it came from, never what it says.
    request.state.refused = error
    if wants_json(request):
        return JSONResponse({"error": error_record(error)}, status_code=code, headers=headers)
    problem = Problem(
        status=code,
        message=_sentence(error.message),
        place=error.place,
        mend=error.mend,
        ways=_ways_on(request),
        number=number_of(request),
    )
    return render(request, "error.html", status=code, headers=headers, problem=problem)


def error_record(error: LoftwrightError) -> dict[str, str]:
    """Return an error as JSON writes it."""
    return {
        "kind": error.kind,
        "message": error.message,
        "place": error.place,
        "mend": error.mend,
    }


def invalid_field(problems: list[Any]) -> InputError:
    """Return the first of the faults that FastAPI found in a request, in our words.

    Parameters
    ----------
    problems : list of dict
        As `RequestValidationError.errors()` gives them.
    """
    first = problems[0]
    place = ".".join(str(part) for part in first["loc"][1:]) or str(first["loc"][0])
    kind, context = first["type"], first.get("ctx", {})
    given = _short(first.get("input"))
    message = "it is missing" if kind == "missing" else f"{given} cannot be"
    if kind in _LIMITS:
        mend = _LIMITS[kind].format_map({**context})
    else:
        mend = _MENDS.get(kind) or f"{first['msg']}."
    return InputError(message, place=place, mend=mend)


def add_error_answers(app: FastAPI) -> None:
    """Let an application answer every error in one shape."""

    @app.exception_handler(LoftwrightError)
    async def known(request: Request, error: LoftwrightError) -> Response:
        return error_answer(request, error)

    @app.exception_handler(RequestValidationError)
    async def invalid(request: Request, error: RequestValidationError) -> Response:
        return error_answer(request, invalid_field(list(error.errors())))

    @app.exception_handler(HTTPException)
    async def refused(request: Request, error: HTTPException) -> Response:
        told = _by_status(request, error)
        return error_answer(request, told, error.status_code, error.headers)


def defect_answer(request: Request) -> Response:
    """Return what is said of a fault of the program; the journal writes down where it was."""
    number = number_of(request)
    tell = f"tell the number {number}, which the log has too," if number else "tell it"
    told = _Defect(
        "Loftwright failed in a way it should not",
        place=request.url.path,
        mend="Nothing that was kept is lost, and what you sent was not done or is on the page "
        f"already: look before you send it again. If it happens again, {tell} to whoever helps "
        "you; the page Settings makes a bundle for them.",
    )
    return error_answer(request, told, 500)


def _ways_on(request: Request) -> tuple[Way, ...]:
    """Return the page that was asked for or that the form stood on, and the first page."""
    before = urlsplit(request.headers.get("referer", ""))
    device = getattr(request.state, "device", None)
    first = "/" if device is None else FIRST_PAGES.get(device.role, "/")
    home = Way(name="Go to the first page", path=first)
    if request.method != "GET" and before.netloc == request.headers.get("host"):
        return (Way(name="Back to the page", path=before.path or "/"), home)
    return (Way(name="Try again", path=request.url.path), home)


def _by_status(request: Request, error: HTTPException) -> LoftwrightError:
    path = request.url.path
    if error.status_code == HTTPStatus.NOT_FOUND:
        program = path.startswith("/api/")
        mend = "See /api/openapi.json." if program else "Look at the address again."
        return NotFoundError("there is nothing at this address", place=path, mend=mend)
    if error.status_code == HTTPStatus.METHOD_NOT_ALLOWED:
        allowed = (error.headers or {}).get("Allow", "another method")
        return UsageError(
            f"{request.method} means nothing here", place=path, mend=f"Use {allowed}."
        )
    return UsageError(
        str(error.detail), place=path, mend="Send the form again from the page it stands on."
    )


def _sentence(message: str) -> str:
    text = message[:1].upper() + message[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."


def _short(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}…"
