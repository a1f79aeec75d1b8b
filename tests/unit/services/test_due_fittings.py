from threading import Thread

from loftwright.services.due_fittings import DueFittings
from loftwright.services.training_plays import new_training_id
from loftwright.store.topics import FITTING, JOB, RECORD


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


def test_a_topic_tells_of_a_fitting_of_the_shop_and_of_no_training_case() -> None:
    due = DueFittings(0.0, FITTING, RECORD)
    for topic in (
        f"{FITTING}{new_training_id()}",
        f"{RECORD}{new_training_id()}",
        f"{JOB}b",
        "devices",
        f"{FITTING}a",
        f"{RECORD}c",
    ):
        due.told(topic)
    assert [due.next(), due.next()] == ["a", "c"]
    due.add("last")
    assert due.next() == "last"
