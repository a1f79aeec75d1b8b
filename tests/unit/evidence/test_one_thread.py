"""Linear algebra stays on one thread while any update is under way, in whatever thread.

What a thread did before, and which libraries were loaded, must not matter: everything that hangs
on them is tried in a process of its own.
"""

import os
import subprocess
import sys
from textwrap import dedent
from threading import Event, Thread

import pytest
from threadpoolctl import threadpool_info

from loftwright.evidence.one_thread import one_thread

THREADS = 2
TWO_CORES = pytest.mark.skipif(len(os.sched_getaffinity(0)) < THREADS, reason="needs two cores")


def blas_threads() -> set[int]:
    return {pool["num_threads"] for pool in threadpool_info() if pool["user_api"] == "blas"}


def said(script: str, threads: int | None = THREADS) -> str:
    """Return what a script prints in a fresh process, where `count` tells its threads."""
    count = """
        from threading import Event, Thread
        from threadpoolctl import threadpool_info
        def count():
            return sorted(
                pool["num_threads"] for pool in threadpool_info() if pool["user_api"] == "blas"
            )
        def aside(act):
            thread = Thread(target=act)
            thread.start()
            thread.join()
    """
    environment = {name: text for name, text in os.environ.items() if "NUM_THREADS" not in name}
    if threads is not None:
        environment["OPENBLAS_NUM_THREADS"] = str(threads)
    run = subprocess.run(
        [sys.executable, "-c", dedent(count) + dedent(script)],
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    return run.stdout.strip()


def test_an_update_that_ends_leaves_another_on_one_thread() -> None:
    before = blas_threads()
    inside, leave = Event(), Event()

    def first() -> None:
        with one_thread():
            inside.set()
            assert leave.wait(10.0)

    other = Thread(target=first)
    other.start()
    assert inside.wait(10.0)
    with one_thread():
        leave.set()
        other.join(10.0)
        assert blas_threads() == {1}
    assert blas_threads() == before


@TWO_CORES
def test_a_library_that_is_loaded_within_is_on_one_thread_too() -> None:
    found = said("""
        from loftwright.evidence.one_thread import one_thread
        with one_thread():
            pass
        import scipy.linalg
        with one_thread():
            print(count())
        print(count())
    """)
    assert found.splitlines() == ["[1, 1]", "[2, 2]"]


@TWO_CORES
def test_what_the_first_thread_did_does_not_keep_a_second_from_one_thread() -> None:
    found = said("""
        import scipy.linalg
        from loftwright.evidence.one_thread import one_thread
        with one_thread():
            print(count())
        def update():
            with one_thread():
                print(count())
        aside(update)
        print(count())
        aside(update)
        with one_thread():
            print(count())
        print(count())
    """)
    assert found.splitlines() == ["[1, 1]", "[1, 1]", "[2, 2]", "[1, 1]", "[1, 1]", "[2, 2]"]


@TWO_CORES
def test_the_last_to_leave_gives_the_threads_back_while_the_first_lives_on() -> None:
    found = said("""
        import scipy.linalg
        from loftwright.evidence.one_thread import one_thread
        entered, leave, left, end = Event(), Event(), Event(), Event()
        def first():
            with one_thread():
                entered.set()
                leave.wait(10.0)
            left.set()
            end.wait(10.0)
        thread = Thread(target=first)
        thread.start()
        entered.wait(10.0)
        with one_thread():
            leave.set()
            left.wait(10.0)
            print(count())
        print(count())
        with one_thread():
            print(count())
        end.set()
        thread.join()
    """)
    assert found.splitlines() == ["[1, 1]", "[2, 2]", "[1, 1]"]


@TWO_CORES
def test_whoever_calls_may_set_threads_of_their_own_afterwards() -> None:
    found = said("""
        from threadpoolctl import threadpool_limits
        import scipy.linalg
        from loftwright.evidence.one_thread import one_thread
        with one_thread():
            pass
        def own():
            with threadpool_limits(1, "blas"):
                print(count())
        aside(own)
        print(count())
    """)
    assert found.splitlines() == ["[1, 1]", "[2, 2]"]


PROGRAM = """
    import loftwright.cli.app
    import scipy.linalg
    print(count())
    aside(lambda: print(count()))
"""


def test_the_program_runs_on_one_thread_from_its_start() -> None:
    assert said(PROGRAM, threads=None).splitlines() == ["[1, 1]", "[1, 1]"]


@TWO_CORES
def test_threads_that_the_environment_asks_for_are_kept() -> None:
    assert said(PROGRAM).splitlines() == ["[2, 2]", "[2, 2]"]
