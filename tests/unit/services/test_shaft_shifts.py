"""What is believed of measured shafts enters a comparison, and nothing where they are not."""

from dataclasses import dataclass, replace
from math import copysign

import numpy as np
import pytest

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.likeness import standing
from loftwright.evidence.budget import Budget
from loftwright.physics.sleeve import Convention
from loftwright.report.records import decision_record
from loftwright.services.demo_studio import fill_demo
from loftwright.services.evidence import compare_clubs, weigh
from loftwright.services.fitting_table import fitting_table
from loftwright.services.shaft_shifts import Shifts, shaft_shifts
from loftwright.services.studio import Studio
from studios import studio_in_memory


@dataclass(frozen=True, kw_only=True)
class Hour:
    """The demo's fitting in its middle, all of whose shafts were measured."""

    studio: Studio
    fitting: str

    @property
    def now(self) -> FittingNow:
        return self.studio.standing(self.fitting)

    @property
    def golfer(self) -> Golfer:
        return self.studio.store.golfer(self.studio.store.fitting(self.fitting).value.golfer).value

    @property
    def own_shaft(self) -> str:
        return self.studio.store.rack().assemblies[self.golfer.own or ""].shaft

    @property
    def shifts(self) -> Shifts:
        return shaft_shifts(self.studio, self.golfer, self.now)


@pytest.fixture(scope="module")
def hour() -> Hour:
    studio = studio_in_memory()
    filled = fill_demo(studio)
    assert filled is not None
    return Hour(studio=studio, fitting=filled.in_progress)


def test_every_measured_shaft_but_the_own_is_believed_to_do_something(hour: Hour) -> None:
    shafts = {club.card.shaft_piece for club in hour.now.clubs}
    assert set(hour.shifts) == shafts - {hour.own_shaft}
    for speed, attack, path, face, loft in hour.shifts.values():
        assert (attack, path, face) == (0.0, 0.0, 0.0)
        assert speed != 0.0
        assert loft != 0.0


def test_a_stiffer_shaft_is_believed_to_cost_a_little_speed(hour: Hour) -> None:
    """The own shaft is the softest; published means are small, and of this sign."""
    speeds = [shift[0] for shift in hour.shifts.values()]
    assert all(copysign(1.0, speed) < 0.0 for speed in speeds)
    assert max(abs(speed) for speed in speeds) < 0.5


def test_without_a_stated_speed_nothing_is_believed(hour: Hour) -> None:
    silent = replace(hour.golfer, head_speed=None)
    assert shaft_shifts(hour.studio, silent, hour.now) == {}


def test_without_a_standing_profile_of_the_own_shaft_nothing_is_believed(hour: Hour) -> None:
    own = standing(hour.studio.store.profiles()[hour.own_shaft])
    assert own is not None
    hour.studio.store.set_profile_aside(own.id, "read with the grip on")
    assert hour.shifts == {}
    hour.studio.store.set_profile_aside(own.id, "")
    assert hour.shifts != {}


def test_what_is_believed_stands_between_clubs_and_sums_to_nothing(hour: Hour) -> None:
    plain, moved = (
        fitting_table(hour.now, Hand.RIGHT, Convention.A, told) for told in ({}, hour.shifts)
    )
    apart = np.array([one.shift for one in moved.traits]) - [one.shift for one in plain.traits]
    assert apart.sum(axis=0) == pytest.approx(0.0, abs=1e-12)
    own = next(place for place, one in enumerate(moved.traits) if one.shaft == hour.own_shaft)
    for place, one in enumerate(moved.traits):
        if one.shaft in hour.shifts:
            assert apart[place] - apart[own] == pytest.approx(hour.shifts[one.shaft], abs=1e-12)


def test_a_comparison_computed_anew_is_the_same_and_one_without_profiles_as_ever(
    hour: Hour,
) -> None:
    records = []
    for told in (hour.shifts, dict(hour.shifts), {}):
        found = compare_clubs(hour.now, hour.golfer, Convention.A, told)
        decision = weigh(found, hour.golfer, Budget()).decision
        assert decision is not None
        records.append(decision_record(decision, found.table.table))
    as_ever = weigh(compare_clubs(hour.now, hour.golfer, Convention.A), hour.golfer, Budget())
    assert as_ever.decision is not None
    assert records[0] == records[1]
    assert records[0] != records[2]
    assert records[2] == decision_record(as_ever.decision, as_ever.table.table)
