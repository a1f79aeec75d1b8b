"""One ball of a virtual golfer at a time, with whatever club is in hand."""

from dataclasses import dataclass

import numpy as np

from loftwright.domain.names import TREES
from loftwright.domain.shot import Shot
from loftwright.training.clubs import CLUB_NAMES, make_clubs
from loftwright.training.deal import shots_of
from loftwright.training.device import device_named
from loftwright.training.golfer import FACE, LOFT, make_golfer
from loftwright.training.visit import simulate_visit


@dataclass(frozen=True, slots=True, kw_only=True)
class VirtualPlayer:
    """A virtual golfer and what every club does to the swing, hidden behind a seed.

    Attributes
    ----------
    seed : int
    ability : str
        tour, low, mid, high or senior.
    hand : str
        `right` or `left`.
    strength : float
        Multiplies what clubs do.
    device : str
        What the device shows: `full`, `no-marks`, `ball-only` or `speed-and-carry`.
    """

    seed: int
    ability: str = "mid"
    hand: str = "right"
    strength: float = 1.0
    device: str = "full"

    def hit(self, club: int, order: int, *, loft: float = 0.0, face: float = 0.0) -> Shot:
        """Return the ball that comes of a club at a place in the visit.

        Parameters
        ----------
        club : int
            Place among the fitting's clubs, the own one being 0.
        order : int
            Swings of the visit before it.
        loft, face : float
            By how much the head stands stronger or weaker, shut or open, than the own one [rad].

        Returns
        -------
        Shot
            The same for the same player, club and order.
        """
        streams = np.random.SeedSequence(self.seed).spawn(4)
        for_golfer, for_clubs = (np.random.default_rng(stream) for stream in streams[:2])
        golfer = make_golfer(self.ability, for_golfer, None, self.hand)
        clubs = np.array(make_clubs(len(TREES) + 1, for_clubs, strength=self.strength))
        clubs[:, LOFT] += loft
        clubs[:, FACE] += face
        visit = simulate_visit(
            golfer,
            clubs,
            np.array([club]),
            np.random.default_rng([self.seed, club, order]),
            device_named(self.device),
            first=order,
        )
        (shot,) = shots_of(visit, CLUB_NAMES)
        return shot
