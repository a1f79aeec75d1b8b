"""What is sought beside a measured shaft, and how near another comes to it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf, log1p, sqrt
from typing import Final

from loftwright.domain.likeness import Likeness
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece
from loftwright.domain.sections import Difference, Section
from loftwright.errors import InputError, UsageError

BENDING, TWIST, WEIGHT, BALANCE = "bending", "twist", "weight", "balance"
MOST_ASKED: Final = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """What is looked for beside a shaft.

    Attributes
    ----------
    by : {"bending", "twist", "weight", "balance"}
        What likeness is measured in.
    shares : mapping of Section to float
        How much stiffer a section shall be than the shaft's own, such as 0.1; the others as it.
    """

    by: str = BENDING
    shares: Mapping[Section, float]

    def __post_init__(self) -> None:
        if self.shares and self.by in {WEIGHT, BALANCE}:
            raise UsageError(
                f"sections are no matter of {self.by}",
                place="by",
                mend="Leave the sections out, or ask by bending or twist.",
            )
        for section, share in self.shares.items():
            if not abs(share) <= MOST_ASKED:
                raise InputError(
                    f"{100.0 * share:+.0f} % is no shaft of the same kind",
                    place=section.value,
                    mend="Ask for 50 % at most, firmer or softer.",
                )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Near:
    """A measured shaft near what was sought.

    Attributes
    ----------
    likeness : Likeness
        Against the shaft that was named.
    far : float
        From what was sought; infinite where it cannot be told.
    why_not : str
        Why it may not be hit now; empty if it may.
    """

    name: str
    piece: Piece
    measured: MeasuredProfile
    likeness: Likeness
    far: float
    why_not: str

    def sections(self, by: str) -> dict[Section, Difference]:
        """Return by how much its sections differ from the named shaft's."""
        return self.likeness.twisting if by == TWIST else self.likeness.bending


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Liked:
    """What plays like a shaft.

    Attributes
    ----------
    name : str
        Of the shaft that was named.
    near : tuple of Near
        The nearest first.
    untold : tuple of str
        Measured shafts that were not read where they had to be.
    unread : tuple of Section
        Sections of the named shaft that were not seen.
    """

    name: str
    sought: Sought
    near: tuple[Near, ...]
    untold: tuple[str, ...]
    unread: tuple[Section, ...]


def far_from(found: Likeness, sought: Sought) -> float:
    """Return how far a shaft is from what is sought; infinite where it cannot be told.

    Parameters
    ----------
    found : Likeness
        Against the shaft that was named.
    sought : Sought

    Notes
    -----
    By bending and twist, the root mean square, over the sections that both shafts were seen in, of
    how far the logarithm of the ratio of their stiffness is from that of what is sought.
    """
    if sought.by in {WEIGHT, BALANCE}:
        whole = found.mass if sought.by == WEIGHT else found.balance
        return inf if whole is None else abs(whole.value)
    sections = found.twisting if sought.by == TWIST else found.bending
    if not sections or any(one not in sections for one in sought.shares):
        return inf
    off = [told.log - log1p(sought.shares.get(one, 0.0)) for one, told in sections.items()]
    return sqrt(sum(one**2 for one in off) / len(off))
