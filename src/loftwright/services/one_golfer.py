"""Several records of one golfer: the second ones point to the first, which stands for all."""

from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.studio import Studio


def first_record(studio: Studio, golfer: str) -> str:
    """Return the id of the record that stands for a golfer."""
    return first_of(studio.store.golfer(golfer).value)


def first_of(golfer: Golfer) -> str:
    """Return the id of the record that stands for a golfer whose record was read."""
    return golfer.merged_into or golfer.id


def records_of(studio: Studio, golfer: str) -> tuple[str, ...]:
    """Return the ids of all records of a golfer, the one that stands for all first.

    Whoever erases a golfer destroys the keys of all of them.
    """
    first = first_record(studio, golfer)
    others = [second for second, into in studio.store.seconds().items() if into == first]
    return (first, *sorted(others))


def who_is(studio: Studio, golfer: str) -> Identity:
    """Return who a golfer is, by the record that stands for all."""
    return studio.store.identity(first_record(studio, golfer))
