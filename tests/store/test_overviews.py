"""What every store tells of all its fittings at once is what their records tell one by one."""

from dataclasses import replace

from loftwright.bay.replay import replay
from loftwright.domain.acts import Closed, NotOurs, Rested, ShotArrived, Undone
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.store.interface import Store
from store_samples import AT, DAY, GOLFER, WHO

BALL = ShotArrived(numbers=ShotNumbers(ball_speed=60.0))
CLOSED = (Rested(), BALL, Closed())


def filled(store: Store) -> None:
    """Keep fittings that are empty, open, closed, corrected and opened again."""
    store.add_golfer(GOLFER, WHO)
    for name in ("empty", "open", "closed", "corrected", "again"):
        store.open_fitting(Fitting(id=name, golfer="g1", opened=DAY, fitter="Kit Lark"))
    store.append("open", CLOSED[:2], at=AT, by="")
    for name in ("closed", "corrected", "again"):
        for act in CLOSED:
            store.append(name, [act], at=AT, by="")
    store.append("corrected", [NotOurs(ball=2)], at=AT, by="")
    store.append("again", [Undone(act=3), Rested()], at=AT, by="")


def test_an_outline_names_the_fitting_and_where_its_record_was_written_last(store: Store) -> None:
    filled(store)
    told = {one.fitting: one for one in store.outlines()}
    assert list(told) == ["again", "corrected", "closed", "open", "empty"]
    assert {one: told[one].end for one in told} == {
        one: max((entry.group for entry in store.record(one)), default=0) for one in told
    }
    assert {one.golfer for one in told.values()} == {"g1"}
    assert {one.fitter for one in told.values()} == {"Kit Lark"}
    assert not any(one.invented or one.bay_check for one in told.values())


def test_a_record_that_ends_with_its_closing_is_closed(store: Store) -> None:
    filled(store)
    ends = store.endings([one.fitting for one in store.outlines()])
    assert set(ends) == {"again", "corrected", "closed", "open"}
    assert [name for name, end in ends.items() if end.closing] == ["closed"]
    assert replay(store.record("closed")).closed
    assert replay(store.record("corrected")).closed
    assert not replay(store.record("again")).closed
    assert ends["again"].end == 4
    assert ends["again"].at == AT
    assert store.endings([]) == {}


def test_the_roll_has_each_golfer_once_and_names_nobody_who_was_erased(store: Store) -> None:
    for name in ("g1", "g2", "g3", "g4"):
        store.add_golfer(Golfer(id=name), Identity(name=f"Golfer {name}"))
    store.change_golfer(replace(store.golfer("g2").value, merged_into="g1"), version=1)
    assert store.roll() == ("g4", "g3", "g1")
    assert store.seconds() == {"g2": "g1"}
    assert store.names() == {"g4": "Golfer g4", "g3": "Golfer g3", "g1": "Golfer g1"}
    store.forget_golfer("g4")
    store.change_identity("g3", Identity(name="Hob Noughtley"))
    assert store.names() == {"g3": "Hob Noughtley", "g1": "Golfer g1"}


def test_consents_are_those_of_the_record_that_stands_for_all(store: Store) -> None:
    yes = Consents(contact=True, shop_record=True)
    for name in ("g1", "g2", "g3"):
        store.add_golfer(Golfer(id=name), Identity(name=name))
    store.change_golfer(Golfer(id="g1", consents=yes), version=1)
    store.change_golfer(Golfer(id="g2", merged_into="g1"), version=1)
    assert store.agreed() == {"g1": "g1", "g2": "g1"}
    assert store.contact() == {"g1": True, "g2": True, "g3": False}
    store.forget_golfer("g3")
    assert store.contact() == {"g1": True, "g2": True}


def test_only_golfers_who_agreed_to_both_may_stand_in_a_publication(store: Store) -> None:
    both = Consents(publish=True, shop_record=True)
    for name, consents in (
        ("g1", both),
        ("g2", Consents(publish=True)),
        ("g3", Consents(shop_record=True)),
    ):
        store.add_golfer(Golfer(id=name, consents=consents), Identity(name=name))
    assert store.to_publish() == {"g1"}


def test_being_at_work_is_asked_of_all_fittings_or_of_some(store: Store) -> None:
    filled(store)
    assert {one.fitting for one in store.busy(AT)} == {"open", "corrected", "again"}
    assert {one.fitting for one in store.busy(AT, ["open", "closed", "nobody"])} == {"open"}
    assert store.busy(AT, []) == ()


def test_no_job_has_no_end(store: Store) -> None:
    filled(store)
    assert store.job_ends() == {}


def test_outlines_are_those_of_the_newest_write_and_read_once_between_two(store: Store) -> None:
    filled(store)
    before = store.outlines()
    store.append("open", [Rested()], at=AT, by="")
    after = store.outlines()
    ends = [{one.fitting: one.end for one in told}["open"] for told in (before, after)]
    assert ends == [1, 3]
    store.change_fitting(replace(store.fitting("open").value, fitter="Ann Reed"), version=1)
    assert [one.fitter for one in store.outlines() if one.fitting == "open"] == ["Ann Reed"]
