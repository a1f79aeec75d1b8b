"""Works out behind the pages what is not yet kept beside the store, as after a new version."""

import logging
from collections.abc import Callable, Iterator
from threading import Event
from typing import Final

from loftwright.services.follow_up import read_due
from loftwright.services.proof import count_proof
from loftwright.services.studio import Studio
from loftwright.services.wear import count_balls
from loftwright.services.workshop_list import read_states

AT_ONCE: Final = 20
"""Records that are read in a stretch, for as long as which a page may wait for them."""
REST: Final = 0.05
"""Seconds that are left to pages between two stretches."""

log: Final = logging.getLogger(__name__)


def sum_up(studio: Studio, stop: Event) -> None:
    """Read every record that no sum holds yet, some at a time, until told to stop.

    Parameters
    ----------
    studio : Studio
    stop : Event
    """
    for left in _each_left(studio):
        if not left:
            continue
        if stop.wait(REST):
            return
    log.info("what fittings and jobs add up to is known")
    stop.wait()


def _each_left(studio: Studio) -> Iterator[int]:
    """Yield how many records are left, after each stretch of each sum."""
    sums: tuple[Callable[[Studio, int], int], ...] = (
        lambda studio, most: read_due(studio, most)[1],
        lambda studio, most: read_states(studio, most)[1],
        count_balls,
        count_proof,
    )
    for one in sums:
        left = 1
        while left:
            left = one(studio, AT_ONCE)
            yield left
