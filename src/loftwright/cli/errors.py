"""One table from the kind of an error to the exit code, and how an error is written."""

import json
import os
import traceback
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import typer

from loftwright.cli.output import emit_error
from loftwright.errors import (
    ConvergenceError,
    EvidenceError,
    InputError,
    IntakeError,
    LoftwrightError,
    StoreError,
    UsageError,
)

DEFECT: Final = 1
INTERRUPTED: Final = 130
EXIT_CODES: Final[Mapping[type[LoftwrightError], int]] = MappingProxyType(
    {
        UsageError: 2,
        InputError: 3,
        IntakeError: 4,
        EvidenceError: 5,
        StoreError: 6,
        ConvergenceError: 7,
    }
)


class _Defect(LoftwrightError):
    kind = "defect"


def exit_code(error: LoftwrightError) -> int:
    """Return the exit code of an error, that of its nearest kind in the table."""
    return next((EXIT_CODES[kind] for kind in type(error).__mro__ if kind in EXIT_CODES), DEFECT)


def report(error: BaseException, *, as_json: bool) -> int:
    """Write an error on standard error and return the exit code.

    Parameters
    ----------
    error : BaseException
        Any that a command let through.
    as_json : bool
        Whether to write the JSON error object instead of words.

    Returns
    -------
    int
        0 never; 1 for a defect of the program.
    """
    if isinstance(error, KeyboardInterrupt | typer.Abort):
        emit_error(["Stopped."])
        return INTERRUPTED
    known = _known(error)
    if known is None:
        known = _defect(error)
        code = DEFECT
    else:
        code = exit_code(known)
    if as_json:
        emit_error([json.dumps({"error": _record(known)}, ensure_ascii=False)])
    else:
        emit_error(_lines(known))
    return code


def _known(error: BaseException) -> LoftwrightError | None:
    if isinstance(error, LoftwrightError):
        return error
    if isinstance(error, typer.TyperException):
        return _usage(error)
    if isinstance(error, OSError):
        return IntakeError(
            error.strerror or str(error),
            place=str(error.filename or ""),
            mend="Check that the file is there and may be read or written.",
        )
    return None


def _usage(error: typer.TyperException) -> UsageError:
    context = getattr(error, "ctx", None)
    command = context.command_path if context is not None else "loftwright"
    parameter = getattr(error, "param", None)
    place = parameter.opts[0] if parameter is not None else command
    text = error.message if parameter is not None else error.format_message()
    text = text.removeprefix("Value error, ")
    return UsageError(
        " ".join(text.split()).rstrip(".") or "it is required and missing",
        place=place,
        mend=f"See {command} --help.",
    )


def _defect(error: BaseException) -> LoftwrightError:
    if os.environ.get("LOFTWRIGHT_DEBUG"):
        emit_error([line.rstrip("\n") for line in traceback.format_exception(error)])
    return _Defect(
        f"Loftwright failed in a way it should not: {type(error).__name__}: {error}".rstrip(": "),
        mend="Nothing of yours was changed. Please report it where you got Loftwright, with the "
        "command and these words; LOFTWRIGHT_DEBUG=1 before the command shows the details.",
    )


def _record(error: LoftwrightError) -> dict[str, object]:
    record: dict[str, object] = {
        "kind": error.kind,
        "message": error.message,
        "place": error.place or None,
        "mend": error.mend or None,
    }
    doubts = getattr(error, "doubts", None)
    if doubts:
        record["doubts"] = [
            {
                "question": doubt.question,
                "column": doubt.column,
                "samples": [{"row": row, "value": value} for row, value in doubt.samples],
                "options": list(doubt.options),
            }
            for doubt in doubts
        ]
    return record


def _lines(error: LoftwrightError) -> list[str]:
    where = f"{error.place}: " if error.place else ""
    lines = [f"{where}{error.message}"]
    if error.mend:
        lines.append(error.mend.strip())
    return lines
