"""Linear algebra stays on one thread while any update is under way, in whatever thread."""

from threading import Event, Thread

from threadpoolctl import threadpool_info

from loftwright.evidence.one_thread import one_thread


def blas_threads() -> set[int]:
    return {pool["num_threads"] for pool in threadpool_info() if pool["user_api"] == "blas"}


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
