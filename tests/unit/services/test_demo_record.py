from loftwright.services.demo_rack import SHOP
from loftwright.services.demo_record import fill_record
from loftwright.services.demo_studio import fill_demo
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import newest_learned
from loftwright.shop.record import standing
from studios import Clock, studio_in_memory


def test_the_demos_record_is_of_shafts_that_stand_in_its_rack() -> None:
    studio = studio_in_memory(Clock())
    fill_demo(studio)
    fill_record(studio, fittings=8)
    learned = newest_learned(studio)
    assert learned is not None
    rack = studio.store.rack()
    pieces = {name for level, name in learned.effects.members if level == "piece"}
    assert pieces <= set(rack.pieces)
    assert {one.name for one in learned.offsets if one.kind == "bay"} <= set(SHOP.bays)
    assert {place[0] for place in standing(record_folder(studio))}.isdisjoint(
        one.value.id for one in studio.store.fittings()
    )
