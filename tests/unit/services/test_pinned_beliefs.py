"""A fitting believes what the shop had learned when its visit opened, and says so."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from bays import Bay, a_bay, drive
from learned_samples import learned
from loftwright.domain.acts import WarmUpDone
from loftwright.errors import StoreError
from loftwright.evidence.budget import Budget
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.result import Believed
from loftwright.evidence.spreads import JUDGED
from loftwright.physics.sleeve import Convention
from loftwright.report.records import decision_record
from loftwright.services import shop_beliefs
from loftwright.services.evidence import Compared, Desk, compare_clubs, weigh
from loftwright.services.fittings import open_visit
from loftwright.services.pinned import PHYSICS_ALONE, Pinned
from loftwright.services.shop_beliefs import fitting_beliefs, newest_version
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import learn_shop
from loftwright.services.studio import Studio
from loftwright.services.unhit import beside_those_hit
from loftwright.shop.learned import ShopLearned
from loftwright.shop.record import keep
from shop_samples import a_fitting, shaft_effects

CLUBS = ("Own", "Ash", "Birch", "Own", "Ash", "Birch")


class Taught:
    """Stands for the files of what a studio has learned."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.versions: dict[int, ShopLearned] = {}
        self.read = 0
        monkeypatch.setattr(shop_beliefs, "learned_versions", lambda _: tuple(self.versions))
        monkeypatch.setattr(shop_beliefs, "read_learned", self._read)

    def learn(self, version: int) -> None:
        found = learned(version)
        self.versions[version] = replace(found, version=version, table=JUDGED)

    def _read(self, _: Studio, version: int) -> ShopLearned:
        self.read += 1
        if version not in self.versions:
            raise StoreError("gone", place=f"{version:04d}.json", mend="Learn anew.")
        return self.versions[version]


@pytest.fixture
def taught(monkeypatch: pytest.MonkeyPatch) -> Taught:
    return Taught(monkeypatch)


def played(bay: Bay) -> Bay:
    for number in range(3 * len(CLUBS)):
        if number % 3 == 0:
            bay.hand(CLUBS[number // 3])
        bay.ball(drive(bay.rng, CLUBS[number // 3]))
    return bay


def pinned_of(bay: Bay) -> Pinned:
    return fitting_beliefs(bay.studio, bay.golfer, bay.now)


def compared(bay: Bay, desk: Desk | None = None) -> Compared:
    return (desk or Desk()).compared(
        bay.fitting, bay.now, bay.golfer, Convention.A, pinned=pinned_of(bay)
    )


def reopened(bay: Bay) -> Bay:
    """Open another visit on another day."""
    bay.clock.at += timedelta(days=7)
    open_visit(bay.studio, bay.fitting, device=bay.now.visits[0].device)
    bay.do(WarmUpDone())
    return bay


def test_a_fitting_that_began_before_anything_was_learned_believes_the_physics(
    taught: Taught,
) -> None:
    bay = played(a_bay())
    taught.learn(1)
    assert pinned_of(bay) is PHYSICS_ALONE
    assert compared(bay).shop is None
    assert taught.read == 0


def test_learning_moves_no_fitting_that_has_begun_and_the_next_visit_takes_the_newest(
    taught: Taught,
) -> None:
    taught.learn(1)
    bay = reopened(a_bay())
    assert bay.now.learned == 1
    before = compared(played(bay))
    taught.learn(2)
    after = compared(bay)
    assert before.comparison is not None
    assert after.comparison is not None
    assert after.comparison.value.tolist() == before.comparison.value.tolist()
    assert reopened(bay).now.learned == 2
    told = compared(bay)
    assert told.shop is not None
    assert told.shop.version == 2
    assert told.comparison is not None
    assert told.comparison.value.tolist() != before.comparison.value.tolist()


def test_an_invented_fitting_takes_nothing_from_the_shop(taught: Taught) -> None:
    taught.learn(4)
    studio = a_bay().studio
    assert newest_version(studio) == 4
    assert newest_version(studio, invented=True) == 0


def test_a_record_tells_the_version_and_how_many_fittings_taught_it(taught: Taught) -> None:
    taught.learn(1)
    bay = played(reopened(a_bay()))
    decision = weigh(compared(bay), bay.golfer, Budget()).decision
    assert decision is not None
    table = compared(bay).table.table
    told = decision_record(decision, table)["believed"]
    assert told == {
        "say": "Believed before the first ball: what 60 fittings of this shop have taught "
        "(version 1, 25 % physics); slopes borrowed from other heads.",
        "version": 1,
        "fittings": 60,
        "physics_share": 0.25,
        "slopes_borrowed": True,
        "lost": False,
    }


def test_a_version_that_is_gone_is_said_to_be_lost_and_comes_back_when_it_does(
    taught: Taught,
) -> None:
    taught.learn(3)
    bay = played(reopened(a_bay()))
    kept = taught.versions.pop(3)
    desk = Desk()
    lost = compared(bay, desk)
    assert lost.shop is None
    decision = weigh(lost, bay.golfer, Budget()).decision
    assert decision is not None
    assert decision.believed == Believed(version=3, lost=True)
    taught.versions[3] = kept
    found = compared(bay, desk)
    assert found.shop is not None
    assert weigh(found, bay.golfer, Budget()).decision != decision


def test_a_ball_costs_no_reading_of_what_was_learned(taught: Taught) -> None:
    taught.learn(1)
    bay = reopened(a_bay())
    for club in CLUBS:
        bay.hand(club)
        bay.ball(drive(bay.rng, club))
        compared(bay)
    assert taught.read == 1


def test_clubs_that_were_not_hit_are_believed_by_the_same_version(taught: Taught) -> None:
    taught.learn(1)
    bay = played(reopened(a_bay()))
    found = compared(bay)
    rack = bay.studio.store.rack()
    told = beside_those_hit(found, rack, bay.golfer.hand, Convention.A)
    plain = beside_those_hit(
        compare_clubs(bay.now, bay.golfer, Convention.A), rack, bay.golfer.hand, Convention.A
    )
    assert told is not None
    assert plain is not None
    assert told.results.keys() == plain.results.keys()
    assert told.results
    for label, one in told.results.items():
        assert one.value is not None
        assert plain.results[label].value != one.value


def test_clubs_share_the_doubt_of_a_piece_that_the_rack_cannot_name() -> None:
    clubs = tuple(ClubTraits(head=head, shaft=shaft) for head, shaft in ("ab", "ac", "dc"))
    found = Pinned(version=3, learned=learned(3)).beliefs(clubs)
    assert found is not None
    doubt = found.clubs.launch_covariance.reshape(5, 3, 5, 3)[0, :, 0, :]
    assert doubt[0, 1] > 0.0
    assert doubt[1, 2] > 0.0
    assert doubt[0, 2] == pytest.approx(0.0, abs=1e-12)


def test_a_left_handed_golfers_clubs_curve_the_other_way() -> None:
    clubs = (ClubTraits(head="a", shaft="b"), ClubTraits(head="a", shaft="c"))
    right = Pinned(version=3, learned=learned(3)).beliefs(clubs)
    left = Pinned(version=3, learned=learned(3), left_handed=True).beliefs(clubs)
    assert right is not None
    assert left is not None
    assert left.clubs.own is not None
    assert right.clubs.own is not None
    sides = np.array([1.0, 1.0, 1.0, -1.0, -1.0])
    assert left.clubs.own == pytest.approx(right.clubs.own * np.outer(sides, sides))
    assert left.slopes[3, 0] == pytest.approx(right.slopes[3, 0])


def test_what_was_learned_is_read_from_its_files_and_missed_where_they_are_damaged() -> None:
    bay = a_bay()
    effects = shaft_effects(3)
    for seed in range(8):
        keep(record_folder(bay.studio), a_fitting(seed, effects))
    assert learn_shop(bay.studio).version == 1
    played(reopened(bay))
    assert bay.now.learned == 1
    file = record_folder(bay.studio) / "learned" / "0001.json"
    whole = file.read_bytes()
    file.write_bytes(whole[:-20])
    desk = Desk()
    assert compared(bay, desk).pinned.lost
    file.unlink()
    assert compared(bay, desk).pinned.lost
    file.write_bytes(whole)
    told = compared(bay, desk).shop
    assert told is not None
    assert (told.version, told.fittings, told.borrowed) == (1, 8, True)
    assert told.clubs.launch.shape == (5, 3)
