"""A piece of work in a process of its own: what it takes is not taken from who serves pages."""

import os
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from traceback import format_exc
from typing import Any, Final, ParamSpec, TypeVar

# A fork would take along the threads' locks without the threads.
_SPAWN: Final = get_context("spawn")
_BEHIND: Final = 10
"""By how much such a process lets others go first."""

Given = ParamSpec("Given")
Came = TypeVar("Came")


def in_own_process(
    work: Callable[Given, Came], /, *given: Given.args, **named: Given.kwargs
) -> Came:
    """Do a piece of work in a process of its own, wait for it, and return what came of it.

    The process ends with this one. What is given and what comes of it must pickle.

    Parameters
    ----------
    work : callable
        A function of a module.

    Raises
    ------
    ChildProcessError
        If the process ended without a word.
    Exception
        Whatever the work raises.
    """
    here, there = _SPAWN.Pipe(duplex=False)
    process = _SPAWN.Process(target=_do, args=(there, work, given, named), daemon=True)
    process.start()
    there.close()
    try:
        came, error, where = here.recv()
    except EOFError:
        process.join()
        raise ChildProcessError(
            f"a process of its own ended without a word, with code {process.exitcode}"
        ) from None
    finally:
        here.close()
    process.join()
    if error is not None:
        error.add_note(where)
        raise error
    result: Came = came
    return result


def _do(
    there: Connection, work: Callable[..., object], given: tuple[Any, ...], named: dict[str, Any]
) -> None:
    if hasattr(os, "nice"):
        os.nice(_BEHIND)
    answer: tuple[object, Exception | None, str]
    try:
        answer = (work(*given, **named), None, "")
    except Exception as error:  # noqa: BLE001 - it is raised by the process that waits
        answer = (None, error, format_exc())
    there.send(answer)
