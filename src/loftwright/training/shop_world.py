"""A simulated shop: its shafts, heads, devices, bays and golfers, and who hits what in it."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import HEAD_SPREAD, ClubTraits
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.shop.levels import Belongs
from loftwright.shop.record import Recorded
from loftwright.training.clubs import CLUB_SPREAD
from loftwright.training.device import DEVICES, Device
from loftwright.training.golfer import TOE
from loftwright.training.linear import CLUB_EFFECT
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.shop_catalogue import Catalogue, draw_catalogue, with_head
from loftwright.training.shop_kinds import ShopKind
from loftwright.training.truth import ClubTruth

CLUBS: Final = 6
RECORD_BALLS: Final = 40
FRESH_BALLS: Final = 20
DEMO_HEADS: Final = ("demo head 0", "demo head 1", "demo head 2")
OWN_HEADS: Final = ("own head 0", "own head 1", "own head 2", "own head 3", "own head 4")
LATER_HEADS: Final = ("later head 0", "later head 1", "later head 2")
"""That came after the record: the first two on the shop's clubs, the last the golfer's own."""
DEVICE_NAMES: Final = ("device 0", "device 1", "device 2")
BAYS: Final = ("bay 0", "bay 1")
GOLFERS_PER_FITTING: Final = 0.8
"""Golfers of a record for each of its fittings: some come back (judgement)."""
LEFT_HANDED: Final = 0.1
_ON_STRIKE: Final = np.arange(7) >= TOE

OFFSET_SD: Final = np.array(
    [
        0.5 * MILE_PER_HOUR,
        0.2 * DEGREE,
        80.0 * REVOLUTION_PER_MINUTE,
        0.5 * DEGREE,
        0.2 * DEGREE,
    ]
)
"""How devices read apart from each other: sd of the five launch numbers (judgement)."""
BAY_SD: Final = np.array([0.0, 0.1 * DEGREE, 0.0, 0.3 * DEGREE, 0.3 * DEGREE])
"""The same of bays, which are not quite level and do not quite point at the target."""

MARKS_ONLY: Final = Device(delivery=False)
RECORD_DEVICES: Final = (*(DEVICES["full"],) * 4, DEVICES["no-marks"])
"""What is measured in fittings of a record, in turn; of every marked one a fifth of the marks is
missing."""
FRESH_DEVICES: Final = (DEVICES["full"], MARKS_ONLY, DEVICES["ball-only"])
ROWS: Final = ("half of the shafts known", "every shaft new", "every shaft and head new")

_CATALOGUE, _HEADS, _OFFSETS, _GOLFER, _PAIR, _RECORD, _FRESH = range(7)
_FRESH_GOLFERS: Final = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shop:
    """A shop once drawn.

    Attributes
    ----------
    catalogue : Catalogue
        In swing columns, or in the printed units of launch in the linear bay.
    heads : dict of str to Head
    beyond : dict of str to FloatArray
        What heads add to launch beyond swing and impact [m s^-1, rad, rad s^-1].
    devices, bays : dict of str to FloatArray
        By how much each reads apart, in world signs.
    """

    kind: ShopKind
    seed: int
    catalogue: Catalogue
    heads: dict[str, Head]
    beyond: dict[str, FloatArray]
    devices: dict[str, FloatArray]
    bays: dict[str, FloatArray]

    def stream(self, *numbers: int) -> np.random.Generator:
        """Return a generator of its own for every purpose."""
        return np.random.default_rng([self.seed, *numbers])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShopFitting:
    """A fitting and what is true of its clubs.

    Attributes
    ----------
    recorded : Recorded
    head : str
        That most of the clubs have.
    truth : ClubTruth
    worth : FloatArray, shape (S,)
        True values at home, as the golfer swings them [m].
    """

    recorded: Recorded
    head: str
    truth: ClubTruth
    worth: FloatArray

    @property
    def traits(self) -> tuple[ClubTraits, ...]:
        """The clubs as a comparison takes them; a shaft that nobody knows is its own."""
        return tuple(
            ClubTraits(head=told.head, shaft=told.piece or f"of {club}")
            for club, told in self.recorded.belongs.items()
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Who hits what where.

    Attributes
    ----------
    number : int
        Of the golfer.
    loading : float
        One or minus one.
    shafts : tuple of Belongs
        With every level told, and the head.
    told : tuple of Belongs
        As the shop knows them.
    sequence : IntArray, shape (n,)
    """

    fitting: str
    number: int
    ability: str
    left_handed: bool
    loading: float
    shafts: tuple[Belongs, ...]
    told: tuple[Belongs, ...]
    device: str
    bay: str
    measured: Device
    sequence: IntArray


def draw_shop(kind: ShopKind, seed: int) -> Shop:
    """Draw a shop.

    Parameters
    ----------
    kind : ShopKind
    seed : int
    """
    factor = np.where(_ON_STRIKE, kind.on_strike, 1.0)
    spread = kind.strength * (CLUB_EFFECT if kind.linear else factor * CLUB_SPREAD)
    for_heads = np.random.default_rng([seed, _HEADS])
    for_offsets = np.random.default_rng([seed, _OFFSETS])
    names = (*DEMO_HEADS, *OWN_HEADS, *LATER_HEADS)
    devices = {name: OFFSET_SD * for_offsets.standard_normal(5) for name in DEVICE_NAMES}
    devices[DEVICE_NAMES[0]] += np.array([0.0, 0.0, kind.spin_bias, 0.0, 0.0])
    return Shop(
        kind=kind,
        seed=seed,
        catalogue=draw_catalogue(
            spread, kind.shares, kind.loading, np.random.default_rng([seed, _CATALOGUE])
        ),
        heads={
            name: varied_head(
                REFERENCE_HEAD, kind.heads * for_heads.standard_normal(len(VARIATIONS))
            )
            for name in names
        },
        beyond={name: HEAD_SPREAD * LAUNCH_SCALE * for_heads.standard_normal(5) for name in names},
        devices=devices,
        bays={name: BAY_SD * for_offsets.standard_normal(5) for name in BAYS},
    )


def draw_recorded(shop: Shop, number: int, fittings: int) -> Drawn:
    """Draw who hits what in a fitting of the record.

    Parameters
    ----------
    shop : Shop
    number : int
        Of the fitting.
    fittings : int
        Of the record.
    """
    rng = shop.stream(_RECORD, number)
    golfers = max(int(GOLFERS_PER_FITTING * fittings), 1)
    golfer = 0 if shop.kind.dominant and number % 3 == 0 else 1 + number % golfers
    old = shop.catalogue.old
    picked = [old[one] for one in rng.choice(len(old), CLUBS - 1, replace=False)]
    own = old[int(rng.integers(len(old)))]
    measured = RECORD_DEVICES[number % len(RECORD_DEVICES)]
    return _drawn(
        shop, f"recorded {number:04d}", golfer, [own, *picked], measured, RECORD_BALLS, rng
    )


def draw_fresh(shop: Shop, number: int, row: str) -> Drawn:
    """Draw who hits what in a fitting that comes after the record.

    Parameters
    ----------
    shop : Shop
    number : int
        Of the fitting; golfer, own club and balls are the same in every row.
    row : str
        Of `ROWS`.
    """
    rng = shop.stream(_FRESH, number)
    listed = shop.catalogue
    old, models, families = (
        [pool[one] for one in rng.permutation(len(pool))]
        for pool in (listed.old, listed.later_models, listed.later_families)
    )
    clubs = [old[0], *old[1:4], models[0], families[0]]
    if row != ROWS[0]:
        clubs = [old[0], *families[: CLUBS - 1]]
    measured = FRESH_DEVICES[number % len(FRESH_DEVICES)]
    drawn = _drawn(
        shop, f"fresh {number:04d}", _FRESH_GOLFERS + number, clubs, measured, FRESH_BALLS, rng
    )
    return _with_later_heads(drawn, number) if row == ROWS[2] else drawn


def _with_later_heads(drawn: Drawn, number: int) -> Drawn:
    heads = [LATER_HEADS[-1], *(CLUBS - 1) * [LATER_HEADS[number % 2]]]
    shafts, told = (
        tuple(with_head(one, head) for one, head in zip(clubs, heads, strict=True))
        for clubs in (drawn.shafts, drawn.told)
    )
    return replace(drawn, shafts=shafts, told=told)


def _drawn(
    shop: Shop,
    fitting: str,
    golfer: int,
    clubs: list[Belongs],
    measured: Device,
    balls: int,
    rng: np.random.Generator,
) -> Drawn:
    """Put clubs together; of the golfer's own shaft nobody knows what it is."""
    of_golfer = shop.stream(_GOLFER, golfer)
    fresh = golfer >= _FRESH_GOLFERS
    shares = shop.kind.fresh_golfers if fresh else shop.kind.golfers
    ability = str(of_golfer.choice(list(shares), p=list(shares.values())))
    own_head = OWN_HEADS[int(of_golfer.integers(len(OWN_HEADS)))]
    demo_head = DEMO_HEADS[int(rng.integers(len(DEMO_HEADS)))]
    shafts = tuple(
        with_head(one, own_head if place == 0 else demo_head) for place, one in enumerate(clubs)
    )
    return Drawn(
        fitting=fitting,
        number=golfer,
        ability=ability,
        left_handed=bool(of_golfer.random() < LEFT_HANDED),
        loading=1.0 if of_golfer.random() < 0.5 else -1.0,
        shafts=shafts,
        told=(Belongs(head=own_head), *shafts[1:]),
        device=DEVICE_NAMES[int(rng.integers(len(DEVICE_NAMES)))],
        bay=BAYS[int(rng.integers(len(BAYS)))],
        measured=measured,
        sequence=shuffled_blocks(CLUBS, balls, rng),
    )


def does(shop: Shop, drawn: Drawn) -> FloatArray:
    """Return what every club of a fitting does in this golfer's hands.

    Parameters
    ----------
    shop : Shop
    drawn : Drawn

    Returns
    -------
    FloatArray, shape (S, 7) or (S, 5)
        To the swing; in the linear bay to launch.
    """
    listed = shop.catalogue
    pieces = {
        one.piece: place
        for place, one in enumerate((*listed.old, *listed.later_models, *listed.later_families))
    }
    dominant = shop.kind.dominant and drawn.number == 0
    rows = []
    for club, shaft in enumerate(drawn.shafts):
        own = shop.stream(_PAIR, drawn.number, pieces[shaft.piece], int(club == 0))
        of_pair = listed.own_sd * own.standard_normal(len(listed.own_sd))
        whole = listed.shared(shaft, drawn.loading) + of_pair
        rows.append(3.0 * whole if dominant else whole)
    return np.array(rows)


def in_world_signs(balls: Balls, offset: FloatArray, *, left: bool) -> Balls:
    """Return balls in golfer's signs as a device shows them in the world.

    Parameters
    ----------
    balls : Balls
    offset : FloatArray, shape (5,)
        By which the launch numbers are read too high.
    left : bool
        Of a left-handed golfer.
    """
    side = -1.0 if left else 1.0
    return replace(
        balls,
        launch=balls.launch * [1.0, 1.0, 1.0, side, side] + offset,
        delivery=balls.delivery * [1.0, 1.0, side, side],
        marks=balls.marks * [side, 1.0],
    )
