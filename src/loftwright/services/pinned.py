"""What a fitting believes by the shop record: the version that its newest visit was opened with.

Later learning moves no fitting that has begun; its next visit takes what is newest then.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.rack import Rack
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.result import Believed
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.services.belongings import ANY_GOLFER, GolferKind, belongs_of
from loftwright.shop.beliefs import beliefs_of
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import Belongs


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pinned:
    """What was learned of the shop's fittings when a visit opened.

    Attributes
    ----------
    version : int
        0 for physics alone.
    learned : ShopLearned, optional
        None for physics alone, and where it can no longer be read.
    rack : Rack, optional
        Names what the clubs' pieces belong to.
    kind : GolferKind
        Who hits them.
    left_handed : bool
    pieces : tuple of (str, str)
        Head and shaft of every club of the fitting.
    """

    version: int = 0
    learned: ShopLearned | None = None
    rack: Rack | None = None
    kind: GolferKind = ANY_GOLFER
    left_handed: bool = False
    pieces: tuple[tuple[str, str], ...] = ()

    @property
    def lost(self) -> bool:
        """Whether there is a version that can no longer be read."""
        return self.version > 0 and self.learned is None

    @property
    def key(self) -> tuple[object, ...]:
        """All on which a comparison by it stands."""
        if self.learned is None:
            return self.version, self.lost
        return self.version, self.left_handed, tuple(self._belongs(*one) for one in self.pieces)

    def beliefs(self, clubs: Sequence[ClubTraits]) -> ShopBeliefs | None:
        """Return what is believed of clubs, one of each in order; None by physics alone.

        Parameters
        ----------
        clubs : sequence of ClubTraits
            Named by their pieces.

        Notes
        -----
        Slopes are those of the head that most of the clubs have, the first of several.
        """
        if self.learned is None or not clubs:
            return None
        belongs = [self._belongs(one.head, one.shaft) for one in clubs]
        heads = [one.head for one in belongs]
        head = max(dict.fromkeys(heads), key=heads.count)
        return beliefs_of(self.learned, belongs, head, left_handed=self.left_handed)

    def said(self, told: ShopBeliefs | None) -> Believed:
        """Return on what a comparison rested before its first ball.

        Parameters
        ----------
        told : ShopBeliefs, optional
            That it is made with; None before there is a ball.
        """
        if self.learned is None:
            return Believed(version=self.version, lost=self.lost)
        return Believed(
            version=self.version,
            fittings=self.learned.fittings,
            physics_share=self.learned.physics_share,
            borrowed=told is not None and told.borrowed,
        )

    def _belongs(self, head_piece: str, shaft_piece: str) -> Belongs:
        known = Belongs()
        if self.rack is not None:
            known = belongs_of(self.rack, head_piece, shaft_piece, self.kind)
        # A piece that the rack cannot name is still one piece, whatever clubs share it.
        return replace(known, head=known.head or head_piece, piece=known.piece or shaft_piece)


PHYSICS_ALONE: Final = Pinned()
"""What is believed by fittings that began before anything was learned, and invented ones."""
