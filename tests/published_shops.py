"""A studio whose golfers' fittings stand in the shop record, as comparisons to publish need it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.acts import ClubJoined, VisitOpened
from loftwright.domain.device import Origin
from loftwright.domain.fitting import ClubCard, DeviceCard, Fitting, Strip
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.domain.rack import HeadModel, Piece, ShaftModel
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.studio import Studio
from loftwright.shop.levels import Belongs
from loftwright.shop.record import keep
from shop_samples import CLUBS, a_fitting
from studios import Clock, studio_in_memory

SHAFTS = ("Bittern", "Curlew", "Dunlin", "Egret")
PEOPLE = (
    *("Ottoline Brambleby", "Percival Quillfeather", "Rosamund Thistlewick"),
    *("Barnaby Snodgrove", "Clementine Wexbourne", "Ignatius Plumtree"),
    *("Hortensia Mugglewood", "Lysander Crumbhaven", "Philippa Tanglefoot"),
    *("Leopold Drizzlecote", "Araminta Bogglesworth", "Fitzroy Hedgepenny"),
)
BOTH = Consents(keep=True, publish=True, shop_record=True)
METER = DeviceCard(
    name="Slate meter of Umberto",
    origins={"ball speed": Origin.MEASURED, "spin": Origin.MEASURED, "path": Origin.CALCULATED},
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedShop:
    """A studio, its golfers and what its shafts truly do, in the units of the sums."""

    studio: Studio
    golfers: tuple[str, ...]
    fittings: tuple[str, ...]
    effects: dict[str, FloatArray]


def a_publishing_shop(
    golfers: int = 8, *, studio: Studio | None = None, consents: Consents = BOTH
) -> PublishedShop:
    """Return a shop whose golfers all agreed and hit all four shafts; the first one stands out."""
    shop = studio if studio is not None else studio_in_memory(Clock())
    _rack(shop)
    effects = {f"s-{name.lower()}": np.zeros(5) for name in SHAFTS}
    effects["s-bittern"] = np.array([2.5, 2.0, 3.0, 0.0, 0.0])
    made = [add_fitting(shop, one, effects, consents=consents) for one in range(golfers)]
    return PublishedShop(
        studio=shop,
        golfers=tuple(golfer for golfer, _ in made),
        fittings=tuple(fitting for _, fitting in made),
        effects=effects,
    )


def add_fitting(
    studio: Studio,
    number: int,
    effects: dict[str, FloatArray],
    *,
    golfer: str = "",
    consents: Consents = BOTH,
    minor: bool = False,
    invented: bool = False,
    balls: int = 40,
    ball: str = "one model, new",
    shafts: Sequence[str] = (),
) -> tuple[str, str]:
    """Add a golfer's fitting with its balls in the record, and return both ids."""
    fitting = f"fitting-{number:03d}"
    recorded = a_fitting(number, effects, balls)
    hand = Hand.LEFT if recorded.left_handed else Hand.RIGHT
    who = golfer or f"golfer-{number:03d}"
    if not golfer:
        studio.store.add_golfer(
            Golfer(id=who, hand=hand, consents=consents, minor=minor),
            Identity(name=PEOPLE[number % len(PEOPLE)], contact=f"owl post {number}"),
        )
    day = date(2026, 1 + number % 9, 3 + number % 24)
    studio.store.open_fitting(
        Fitting(id=fitting, golfer=who, opened=day, fitter="Umberto", invented=invented)
    )
    models = {
        club: shafts[place] if shafts else recorded.belongs[club].model
        for place, club in enumerate(CLUBS)
    }
    studio.store.append(
        fitting,
        [
            *(ClubJoined(club=club, card=_card(model)) for club, model in models.items()),
            VisitOpened(day=day, bay="Nook bay", device=METER, strip=Strip(ball=ball)),
        ],
        at=studio.now(),
        by="Umberto",
    )
    belongs = {
        club: Belongs(head="h-harrow", family="Waders", model=model, piece=f"p-{model}")
        for club, model in models.items()
    }
    keep(
        record_folder(studio),
        replace(
            recorded,
            fitting=fitting,
            golfer=code_of_golfer(who),
            bays=("Nook bay",),
            devices=(METER.name,),
            belongs=belongs,
            speed="fast" if number % 4 else "middle",
        ),
    )
    return who, fitting


def say_no(studio: Studio, golfer: str) -> None:
    """Have a golfer take back the consent to publish."""
    kept = studio.store.golfer(golfer)
    consents = replace(kept.value.consents, publish=False)
    studio.store.change_golfer(replace(kept.value, consents=consents), version=kept.version)


def _card(model: str) -> ClubCard:
    return ClubCard(
        assembly=f"a-{model}",
        head="Harrow 460",
        shaft=model,
        head_piece="p-h-harrow",
        shaft_piece=f"p-{model}",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        length=45.0 * INCH,
    )


def _rack(studio: Studio) -> None:
    studio.store.put(
        HeadModel(id="h-harrow", maker="", name="Harrow 460", loft=10.5 * DEGREE), version=None
    )
    studio.store.put(Piece(id="p-h-harrow", model="h-harrow", label="one"), version=None)
    for name in SHAFTS:
        model = f"s-{name.lower()}"
        studio.store.put(
            ShaftModel(
                id=model,
                maker="Nullmoor (invented)",
                name=name,
                paper_mass=60.0 * GRAM,
                paper_label="firm",
                family="Waders",
            ),
            version=None,
        )
        studio.store.put(Piece(id=f"p-{model}", model=model, label=f"{name} one"), version=None)
