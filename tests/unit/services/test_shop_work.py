"""Work on the shop record beside everything else: one thing at a time, told as it goes."""

from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.services.evidence import Desk
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.shop_record import record_shop
from loftwright.services.shop_work import ShopWork, Stage, Task
from loftwright.services.studio import Studio
from studios import studio_in_memory


def a_studio(fittings: int) -> Studio:
    studio = studio_in_memory()
    for _ in range(fittings):
        golfer = Golfer(id="", consents=Consents(shop_record=True))
        open_for_new(studio, Visitor(golfer=golfer, identity=Identity(name="A")), bay="Bay 1")
    return studio


def test_every_fitting_is_counted_before_it_is_looked_at() -> None:
    told: list[tuple[int, int]] = []
    record_shop(a_studio(3), Desk(), lambda done, of: told.append((done, of)))
    assert told == [(0, 3), (1, 3), (2, 3)]


def test_bringing_the_record_up_to_date_ends_with_what_is_in_it() -> None:
    work = ShopWork(a_studio(2))
    assert work.now.stage is Stage.IDLE
    assert work.start(Task.RECORD)
    work.wait(20.0)
    now = work.now
    assert (now.stage, now.task, now.message) == (Stage.DONE, Task.RECORD, "")
    assert now.kept is not None
    assert (now.kept.fittings, now.kept.left_out) == (0, 2)
    assert now.began is not None
    # Begun, two fittings looked at, ended.
    assert now.revision == 4


def test_an_empty_record_teaches_nothing_and_says_why() -> None:
    work = ShopWork(a_studio(0))
    work.start(Task.LEARN)
    work.wait(60.0)
    failed = work.now
    assert failed.stage is Stage.FAILED
    assert failed.message
    assert failed.mend
    assert work.start(Task.RECORD)
    work.wait(20.0)
    ended = work.now
    assert ended.stage is Stage.DONE
