"""A studio on the disk with the invented golfers, of whom some agree to the shop record."""

from dataclasses import replace
from pathlib import Path

from demos import a_demo
from loftwright.services.opening import open_studio
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.record import keep
from shop_samples import a_fitting, shaft_effects


def with_consent(studio: Studio, fitting: str, *, agreed: bool, invented: bool = False) -> str:
    """Say whether a fitting's golfer agrees to the shop record, and that the fitting is real."""
    opened = studio.store.fitting(fitting)
    golfer = studio.store.golfer(opened.value.golfer)
    consents = replace(golfer.value.consents, shop_record=agreed)
    studio.store.change_golfer(replace(golfer.value, consents=consents), version=golfer.version)
    studio.store.change_fitting(replace(opened.value, invented=invented), version=opened.version)
    return golfer.value.id


def a_shop_on_disk(folder: Path) -> str:
    """Keep a studio whose finished fitting may teach the shop; return that fitting."""
    studio = open_studio(folder)
    try:
        demo = a_demo(studio)
        with_consent(studio, demo.finished, agreed=True)
        return demo.finished
    finally:
        studio.store.close()


def a_taught_shop(folder: Path, fittings: int = 60) -> None:
    """Keep a studio whose record holds so many invented fittings."""
    studio = open_studio(folder)
    effects = shaft_effects(3)
    try:
        for seed in range(fittings):
            keep(record_folder(studio), a_fitting(seed, effects))
    finally:
        studio.store.close()
