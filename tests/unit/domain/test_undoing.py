"""What stands of any record in which lines cancel earlier ones."""

from dataclasses import dataclass

from loftwright.domain.undoing import uncancelled, written


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A line of a record that may cancel another."""

    sequence: int
    group: int
    cancels: int | None = None
    key: str = ""


def standing(*lines: Said) -> list[int]:
    return [one.sequence for one in uncancelled(lines, lambda line: line.cancels)]


def test_a_cancelled_line_takes_those_written_with_it_along() -> None:
    lines = (Said(sequence=1, group=1), Said(sequence=2, group=2), Said(sequence=3, group=2))
    assert standing(*lines, Said(sequence=4, group=4, cancels=3)) == [1]


def test_cancelling_what_cancelled_lets_the_first_stand_again() -> None:
    first, undone = Said(sequence=1, group=1), Said(sequence=2, group=2, cancels=1)
    assert standing(first, undone) == []
    assert standing(first, undone, Said(sequence=3, group=3, cancels=2)) == [1]


def test_an_empty_key_was_never_written_under() -> None:
    record = (Said(sequence=1, group=1), Said(sequence=2, group=2, key="k"))
    assert written(record, "k")
    assert not written(record, "other")
    assert not written(record, "")
