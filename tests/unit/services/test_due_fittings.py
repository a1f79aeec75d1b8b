from threading import Thread

from loftwright.services.due_fittings import DueFittings


def test_a_fitting_told_twice_has_one_turn() -> None:
    due = DueFittings(0.0)
    for fitting in ("a", "b", "a"):
        due.add(fitting)
    assert {due.next(), due.next()} == {"a", "b"}
    waiting = Thread(target=due.wake)
    waiting.start()
    assert due.next() is None
    waiting.join()


def test_the_fitting_told_first_comes_first() -> None:
    due = DueFittings(0.0)
    due.add("a")
    due.add("b")
    assert due.next() == "a"


def test_a_wait_for_a_turn_that_has_not_come_ends_when_woken() -> None:
    due = DueFittings(3600.0)
    due.add("a")
    found: list[str | None] = ["nothing"]

    def wait() -> None:
        found[0] = due.next()

    waiting = Thread(target=wait)
    waiting.start()
    while waiting.is_alive():
        due.wake()
        waiting.join(0.01)
    assert found == [None]
