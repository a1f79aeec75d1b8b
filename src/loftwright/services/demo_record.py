"""An invented shop record for the demo: virtual golfers hit the shafts of its rack."""

import logging
from dataclasses import replace
from threading import Thread
from typing import Final

from loftwright.domain.rack import Piece
from loftwright.errors import LoftwrightError
from loftwright.services.belongings import belongs_of
from loftwright.services.demo_rack import METER, SHOP
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import learn_shop, newest_learned
from loftwright.services.shop_work import TOPIC
from loftwright.services.studio import Studio
from loftwright.shop.levels import Belongs
from loftwright.shop.record import Recorded, keep
from loftwright.training.shop_fittings import recorded_fittings
from loftwright.training.shop_kinds import ShopKind
from loftwright.training.shop_study import weighed
from loftwright.training.shop_world import BAYS, DEMO_HEADS, draw_shop

FITTINGS: Final = 48
_SEED: Final = 7

log: Final = logging.getLogger(__name__)


def fill_record_aside(studio: Studio) -> Thread:
    """Fill the demo's record and learn from it beside the pages, which need not wait for it.

    Returns
    -------
    Thread
        That does it; at an end at once where the demo has learned before.
    """
    thread = Thread(target=_fill, args=(studio,), daemon=True)
    thread.start()
    return thread


def _fill(studio: Studio) -> None:
    try:
        if newest_learned(studio) is None:
            fill_record(studio)
            studio.hub.publish(TOPIC, 1)
    except LoftwrightError:
        # The demo goes on without a record; its page then says that nothing was learned.
        log.exception("the demo's shop record")


def fill_record(studio: Studio, fittings: int = FITTINGS) -> None:
    """Put invented fittings of virtual golfers into the record, and learn from them.

    Parameters
    ----------
    studio : Studio
    fittings : int

    Raises
    ------
    StoreError
        If the record cannot be written.
    """
    shop = draw_shop(ShopKind(), _SEED)
    shafts = _shafts(studio)
    old = shop.catalogue.old[: len(shafts)]
    named = dict(zip([one.piece for one in old], shafts, strict=True))
    shop = replace(shop, catalogue=replace(shop.catalogue, old=old))
    heads = dict(zip(DEMO_HEADS, _heads(studio), strict=False))
    for fitting in recorded_fittings(shop, fittings):
        keep(record_folder(studio), _in_this_shop(weighed(fitting), named, heads))
    learn_shop(studio)


def _in_this_shop(drawn: Recorded, shafts: dict[str, Belongs], heads: dict[str, str]) -> Recorded:
    """Return a fitting under the names of the demo's rack, bays and device."""
    bays = dict(zip(BAYS, SHOP.bays, strict=True))
    return replace(
        drawn,
        bays=tuple(bays[one] for one in drawn.bays),
        devices=tuple(METER.name for _ in drawn.devices),
        belongs={
            club: replace(
                shafts.get(told.piece, Belongs()),
                head=heads.get(told.head, f"{told.head} (invented)"),
                speed=told.speed,
                loading=told.loading,
            )
            for club, told in drawn.belongs.items()
        },
    )


def _shafts(studio: Studio) -> list[Belongs]:
    rack = studio.store.rack()
    there = [one for one in _by_label(studio) if one.model in rack.shafts]
    return [belongs_of(rack, "", one.id) for one in there]


def _heads(studio: Studio) -> list[str]:
    rack = studio.store.rack()
    return list(dict.fromkeys(one.model for one in _by_label(studio) if one.model in rack.heads))


def _by_label(studio: Studio) -> list[Piece]:
    return sorted(studio.store.rack().pieces.values(), key=lambda piece: piece.label)
