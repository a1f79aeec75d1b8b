"""A training case: a virtual golfer and clubs stated one by one, and what goes wrong when."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.domain.golfer import Hand
from loftwright.domain.names import OWN, TREES
from loftwright.domain.shot import Shot
from loftwright.errors import InputError
from loftwright.training.deal import shots_of
from loftwright.training.device import device_named
from loftwright.training.golfer import (
    ABILITIES,
    COLD_HIGH,
    COLD_SPEED,
    HEAD_SPEED,
    HIGH,
    TOE,
    WARM_UP_BALLS,
    VirtualGolfer,
)
from loftwright.training.visit import simulate_visit

ORDERS: Final = ("sets", "blocks")
MOST_BALLS: Final = 120
_FEWEST_CLUBS: Final = 2
_SHUFFLING, _WARMING, _HITTING = 0, 1, 2
_LARGEST: Final = 2**32


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CaseClub:
    """A club of a case: what its paper says, and what it truly does.

    Attributes
    ----------
    shaft : str
        Its name in the case; what goes wrong with one club names it.
    label : str
        Printed on the shaft.
    loft : float
        Printed on the head [rad].
    length : float
        [m]
    shaft_mass : float
        Printed [kg].
    does : FloatArray, shape (7,)
        What the club does to the golfer's mean swing, in swing columns; all of it, whatever the
        paper says.
    """

    shaft: str
    label: str
    loft: float
    length: float
    shaft_mass: float
    does: FloatArray

    def __post_init__(self) -> None:
        object.__setattr__(self, "does", frozen_array(self.does))


@dataclass(frozen=True, slots=True, kw_only=True)
class Spell:
    """A run of one club's balls that are struck elsewhere on the face.

    Attributes
    ----------
    shaft : str
    first, last : int
        Of the balls hit with that club, from 1.
    toe, high : float
        By how much the strike moves [m].
    """

    shaft: str
    first: int
    last: int
    toe: float = 0.0
    high: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmUp:
    """How a golfer comes to full speed.

    Attributes
    ----------
    speed, high : float
        Of the first swing against a warm one: head speed [m s^-1] and strike [m].
    balls : float
        After so many swings 37 % of it is left.
    """

    speed: float = COLD_SPEED
    high: float = COLD_HIGH
    balls: float = WARM_UP_BALLS

    def left(self, swing: float) -> float:
        """Return the share of the cold that is left after so many swings of the visit."""
        return float(np.exp(-swing / self.balls))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Case:
    """A case as its file states it.

    Attributes
    ----------
    name : str
        The file's, without its ending; it tells nothing of the truth.
    golfer : str
        Invented.
    brief : str
        What a fitter hears beforehand.
    lesson : str
        What a good fitter learns; shown after the call.
    ability : str
        Gives how far the swing varies.
    mean : FloatArray, shape (7,)
        The mean swing once warm, in swing columns.
    clubs : tuple of CaseClub
        The golfer's own first.
    spells : tuple of Spell
    dropped : tuple of int
        Swings after the warm-up that the device does not read, from 1.
    balls : int
    seconds : float
    order : str
        `sets` as a plan shuffles them, or `blocks`, club after club.
    seed : int
        The case's own; another one shuffles names and balls and leaves the truth.
    """

    name: str
    golfer: str
    brief: str
    lesson: str
    ability: str
    hand: Hand
    goal: str
    mean: FloatArray
    clubs: tuple[CaseClub, ...]
    spells: tuple[Spell, ...] = ()
    dropped: tuple[int, ...] = ()
    warm_up: WarmUp
    device: str = "full"
    balls: int
    seconds: float
    order: str = "sets"
    seed: int

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", frozen_array(self.mean))
        self._check_clubs()
        if self.ability not in ABILITIES:
            known = ", ".join(ABILITIES)
            raise InputError(
                f"{self.ability!r} is no ability", place="ability", mend=f"Give {known}."
            )
        device_named(self.device)
        if self.order not in ORDERS:
            raise InputError(
                f"{self.order!r} is no order", place="order", mend=f"Give {', '.join(ORDERS)}."
            )
        if not 4 * len(self.clubs) <= self.balls <= MOST_BALLS:
            raise InputError(
                f"{self.balls} balls for {len(self.clubs)} clubs",
                place="balls",
                mend=f"Give at least four a club and at most {MOST_BALLS}.",
            )
        if any(not 1 <= one <= self.balls for one in self.dropped):
            raise InputError(
                "a dropped ball lies outside the case's balls",
                place="dropped",
                mend=f"Give swings from 1 to {self.balls}.",
            )
        _check_seed(self.seed)

    def _check_clubs(self) -> None:
        shafts = [club.shaft for club in self.clubs]
        if not _FEWEST_CLUBS <= len(shafts) <= len(TREES):
            raise InputError(
                f"{len(shafts)} clubs cannot be a case",
                place="clubs",
                mend=f"Give 2 to {len(TREES)}, the golfer's own first.",
            )
        if len(set(shafts)) < len(shafts):
            raise InputError(
                "two clubs have the same shaft", place="clubs", mend="Give each its own name."
            )
        for spell in self.spells:
            if spell.shaft not in shafts:
                raise InputError(
                    f"no club has the shaft {spell.shaft!r}",
                    place="spells",
                    mend=f"Name one of {', '.join(shafts)}.",
                )
            if not 1 <= spell.first <= spell.last:
                raise InputError(
                    f"a spell from ball {spell.first} to ball {spell.last} cannot be",
                    place="spells",
                    mend="Count the club's own balls from 1; the last not before the first.",
                )

    def virtual_golfer(self) -> VirtualGolfer:
        """Return the golfer, warm."""
        return VirtualGolfer(
            ability=self.ability,
            mean=self.mean,
            sd=ABILITIES[self.ability].sd,
            hand=self.hand.value,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """A ball of a case.

    Attributes
    ----------
    shot : Shot
        As the device would show it.
    strike : tuple of float
        Where on the face the mark is [m]; also for a ball that the device did not read.
    read : bool
    """

    shot: Shot
    strike: tuple[float, float] | None
    read: bool


class CasePlayer:
    """The golfer of a case, hitting under one seed.

    Parameters
    ----------
    case : Case
    seed : int, optional
        The case's own without it.

    Attributes
    ----------
    clubs : dict of str to CaseClub
        By the names of the fitting: Own, then trees in an order dealt by the seed.

    Notes
    -----
    Every ball has a random stream of its own, named by seed, club and the club's count of balls:
    what the k-th ball with a club draws does not depend on the clubs hit before it. What depends
    on the place in the visit is the warm-up alone.
    """

    def __init__(self, case: Case, seed: int | None = None) -> None:
        self.case = case
        self.seed = case.seed if seed is None else seed
        _check_seed(self.seed)
        others = np.random.default_rng([self.seed, _SHUFFLING]).permutation(len(case.clubs) - 1)
        self.places = {
            OWN: 0,
            **{TREES[place]: int(club) + 1 for place, club in enumerate(others)},
        }
        self.clubs = {name: case.clubs[place] for name, place in self.places.items()}

    def warm_up(self, swing: int) -> Hit:
        """Return a ball of the warm-up with the own club, by its place in the visit from 0."""
        return self._strike(OWN, self.case.clubs[0].does, swing, [_WARMING, swing])

    def hit(self, club: str, ball: int, swing: int, after_warm_up: int) -> Hit:
        """Return the ball that comes of a club.

        Parameters
        ----------
        club : str
            As the fitting calls it.
        ball : int
            Place among the balls hit with this club, from 1.
        swing : int
            Swings of the visit before it, warm-up among them.
        after_warm_up : int
            Place among the swings after the warm-up, from 1.

        Returns
        -------
        Hit

        Raises
        ------
        InputError
            For a club that the case has not.
        """
        if club not in self.clubs:
            raise InputError(
                f"this case has no club {club!r}",
                place="club",
                mend=f"Hand over {', '.join(self.clubs)}.",
            )
        does = np.array(self.clubs[club].does)
        for spell in self.case.spells:
            if spell.shaft == self.clubs[club].shaft and spell.first <= ball <= spell.last:
                does[TOE] += spell.toe
                does[HIGH] += spell.high
        stream = [_HITTING, self.places[club], ball]
        return self._strike(club, does, swing, stream, read=after_warm_up not in self.case.dropped)

    def _strike(
        self, name: str, does: FloatArray, swing: int, stream: list[int], *, read: bool = True
    ) -> Hit:
        visit = simulate_visit(
            self.case.virtual_golfer(),
            (does + self._cold(swing))[None],
            np.array([0]),
            np.random.default_rng([self.seed, *stream]),
            device_named(self.case.device),
            first=swing,
        )
        (shot,) = shots_of(visit, (name,))
        strike = None
        if shot.strike_toe is not None and shot.strike_high is not None:
            strike = (shot.strike_toe, shot.strike_high)
        elif not read:
            toe, high = visit.true_strike[0].round(4).tolist()
            strike = (toe, high)
        return Hit(shot=shot, strike=strike, read=read)

    def _cold(self, swing: int) -> FloatArray:
        """Return what this golfer's cold adds to the cold that every virtual golfer has."""
        own, usual = self.case.warm_up, WarmUp()
        shift = np.zeros(7)
        left, usually = own.left(swing), usual.left(swing)
        shift[HEAD_SPEED] = own.speed * left - usual.speed * usually
        shift[HIGH] = own.high * left - usual.high * usually
        return shift


def _check_seed(seed: int) -> None:
    if not 0 <= seed < _LARGEST:
        raise InputError(
            f"{seed} is no seed", place="seed", mend="Give a whole number from 0 to 4294967295."
        )
