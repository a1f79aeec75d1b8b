"""Figures of a part beside those of the tested piece: in, out, or why nothing is told."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import hypot
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.parts_acts import Part, PartCame
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading, fit_of

SAME_LENGTH: Final = 3.0 * MILLIMETRE
"""Within which weights of two shafts may be compared: 0.2 g of a usual one."""

SAME_CLAMP: Final = 1.0 * MILLIMETRE
SAME_WEIGHT: Final = 0.5 * GRAM


class Figure(StrEnum):
    """What is measured of a part."""

    MASS = "mass"
    LENGTH = "length"
    BALANCE = "balance"
    LOFT = "loft"
    LIE = "lie"
    FACE = "face"
    FREQUENCY = "frequency"


ANGLES: Final = frozenset({Figure.LOFT, Figure.LIE, Figure.FACE})
ASKED: Final = {
    Part.HEAD: (Figure.MASS, Figure.LOFT, Figure.LIE, Figure.FACE),
    Part.SHAFT: (Figure.MASS, Figure.LENGTH, Figure.BALANCE),
    Part.GRIP: (Figure.MASS, Figure.LENGTH, Figure.BALANCE),
    Part.SLEEVE: (Figure.MASS,),
}
"""What a build needs of a part, in the order in which it is measured; never guessed."""

_HELD: Final = {
    Part.HEAD: ASKED[Part.HEAD],
    Part.SHAFT: (*ASKED[Part.SHAFT], Figure.FREQUENCY),
    Part.GRIP: ASKED[Part.GRIP],
    Part.SLEEVE: ASKED[Part.SLEEVE],
}
_TOLERANCES: Final = {Figure.MASS: "part_mass"}


class Source(StrEnum):
    """Where a figure of the tested piece comes from.

    Attributes
    ----------
    CARD
        The piece's own measured card.
    CLUB_CARD
        The measured card of the whole tested club.
    BENCH
        The shaft's measured profile.
    RACK
        Weighed when it came to the rack.
    JOINED
        As the club joined the fitting, printed or measured.
    PRINTED
        The maker's figure for the model, uncut.
    """

    CARD = "card"
    CLUB_CARD = "club_card"
    BENCH = "bench"
    RACK = "rack"
    JOINED = "joined"
    PRINTED = "printed"


MEASURED: Final = frozenset({Source.CARD, Source.CLUB_CARD, Source.BENCH, Source.RACK})
"""Sources that carry a doubt of their own; a printed figure is taken as it stands."""


class Silent(StrEnum):
    """Why nothing is told of a figure."""

    NOT_READ = "not_read"
    NOT_HELD = "not_held"
    NOTHING_KNOWN = "nothing_known"
    PRINTED = "printed"
    OTHER_LENGTH = "other_length"
    OTHER_SET_UP = "other_set_up"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """Half the range that holds the true figure 95 times in 100 (common practice, no source).

    Attributes
    ----------
    mass : float
        Of a part on the scale [kg].
    length, balance : float
        [m]
    angle : float
        Of a head on the gauge [rad].
    frequency : float
        [s^-1]
    """

    mass: float = 0.1 * GRAM
    length: float = 1.0 * MILLIMETRE
    balance: float = 2.0 * MILLIMETRE
    angle: float = 0.25 * DEGREE
    frequency: float = 1.0 * CYCLE_PER_MINUTE

    def of(self, figure: Figure) -> float:
        """Return the doubt of a figure, in its own unit."""
        found: float = getattr(self, "angle" if figure in ANGLES else figure.value)
        return found


USUAL_DOUBTS: Final = Doubts()


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A figure of the tested piece and where it comes from."""

    value: float
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class HitPiece:
    """What is known of the piece that was hit.

    Attributes
    ----------
    known : mapping of Figure to Known
    length : float or None
        Of a shaft when it was weighed and balanced [m].
    clamp, tip_mass : float or None
        Of its frequency [m, kg].
    """

    known: Mapping[Figure, Known] = field(default_factory=dict)
    length: float | None = None
    clamp: float | None = None
    tip_mass: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A figure of a part beside that of the tested piece.

    Attributes
    ----------
    reading : float or None
    target : Known or None
    tolerance : float
    doubt : float
        Of the difference.
    fit : Fit or None
        None where nothing is told.
    silent : Silent or None
        Why not.
    asked : bool
        Whether the build needs it and it was not read.
    """

    figure: Figure
    reading: float | None
    target: Known | None
    tolerance: float
    doubt: float
    fit: Fit | None
    silent: Silent | None
    asked: bool

    @property
    def apart(self) -> float | None:
        """How much more it is than the tested one's; None without both."""
        if self.reading is None or self.target is None or self.silent is not None:
            return None
        return self.reading - self.target.value


def held_against(
    came: PartCame, tested: HitPiece, tolerances: Tolerances, doubts: Doubts = USUAL_DOUBTS
) -> tuple[Held, ...]:
    """Return every figure of a part beside that of the tested piece.

    Parameters
    ----------
    came : PartCame
    tested : HitPiece
    tolerances : Tolerances
    doubts : Doubts

    Notes
    -----
    The doubt is that of the difference: both readings' where the tested piece was measured, the
    new one's alone where only a printed figure is known of it.
    """
    return tuple(_held(came, tested, tolerances, doubts))


def _held(
    came: PartCame, tested: HitPiece, tolerances: Tolerances, doubts: Doubts
) -> Iterator[Held]:
    for figure in _HELD[came.part]:
        reading: float | None = getattr(came.figures, figure.value)
        target = tested.known.get(figure)
        asked = reading is None and figure in ASKED[came.part]
        if reading is None and not asked and target is None:
            continue
        silent = _silent(came, figure, target, tested)
        own = doubts.of(figure)
        doubt = hypot(own, own) if target is not None and target.source in MEASURED else own
        tolerance: float = getattr(tolerances, _TOLERANCES.get(figure, figure.value))
        fit = None
        if silent is None and reading is not None and target is not None:
            fit = fit_of(Reading(value=reading, half_width=doubt), target.value, tolerance)
        yield Held(
            figure=figure,
            reading=reading,
            target=target,
            tolerance=tolerance,
            doubt=doubt,
            fit=fit,
            silent=silent,
            asked=asked,
        )


def _silent(
    came: PartCame, figure: Figure, target: Known | None, tested: HitPiece
) -> Silent | None:
    """Return why a figure cannot be held against the tested piece's."""
    figures = came.figures
    of_shaft = came.part is Part.SHAFT and figure in {Figure.MASS, Figure.BALANCE}
    one_length = _alike((figures.length, tested.length), SAME_LENGTH)
    one_set_up = _alike((figures.clamp, tested.clamp), SAME_CLAMP) and _alike(
        (figures.tip_mass, tested.tip_mass), SAME_WEIGHT
    )
    reasons = {
        Silent.NOT_READ: getattr(figures, figure.value) is None,
        Silent.NOT_HELD: figure is Figure.LENGTH,
        Silent.NOTHING_KNOWN: target is None,
        Silent.PRINTED: target is not None and target.source is Source.PRINTED,
        Silent.OTHER_LENGTH: of_shaft and not one_length,
        Silent.OTHER_SET_UP: figure is Figure.FREQUENCY and not one_set_up,
    }
    return next((one for one, holds in reasons.items() if holds), None)


def _alike(pair: tuple[float | None, float | None], within: float) -> bool:
    first, second = pair
    return first is not None and second is not None and abs(first - second) <= within
