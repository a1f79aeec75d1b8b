"""What stands of a job's record, what is undone first and what can be done again."""

from datetime import UTC, datetime

from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.order_acts import Agreed, OrderSent, Withdrawn
from loftwright.workshop.standing import newest, repeatable, standing, undoable

AT = datetime(2026, 5, 14, 9, tzinfo=UTC)


def record(*groups: tuple[JobAct, ...]) -> tuple[JobEntry, ...]:
    """Return entries of acts that were written together."""
    found: list[JobEntry] = []
    for acts in groups:
        first = len(found) + 1
        found += [
            JobEntry(sequence=first + place, at=AT, by="", act=act, group=first)
            for place, act in enumerate(acts)
        ]
    return tuple(found)


def test_what_was_written_together_goes_together() -> None:
    told = record((Agreed(name="O"),), (OrderSent(to="x"), Withdrawn(reason="y")), (_undo(3),))
    assert [one.act for one in standing(told)] == [Agreed(name="O")]


def test_the_newest_act_is_undone_first() -> None:
    told = record((Agreed(name="O"),), (Withdrawn(reason="y"),))
    assert undoable(told) == told[1]
    assert undoable(record()) is None


def test_an_act_that_was_undone_last_can_be_done_again() -> None:
    told = record((Agreed(name="O"),), (_undo(1),))
    assert repeatable(told) == told[0]
    assert undoable(told) is None
    again = (*told, JobEntry(sequence=3, at=AT, by="", act=_undo(2), group=3))
    assert standing(again) == told[:1]
    assert repeatable(again) is None


def test_the_newest_of_a_kind_counts() -> None:
    told = record((Agreed(name="O"),), (Agreed(name="P"),))
    assert newest(told, Agreed) == Agreed(name="P")
    assert newest(told, Withdrawn) is None


def _undo(act: int) -> JobUndone:
    return JobUndone(act=act)
