"""What of the rack is looked for: its bounds, its words and its order."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from loftwright.constants import GRAM
from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import Assembly, Piece, Rack
from loftwright.web.views.rack_rows import shaft_mass

SORTS: Final = ("weight", "length", "label", "head")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What of the rack is looked for.

    Attributes
    ----------
    sort : {"weight", "length", "label", "head"}
    least_mass, most_mass : float, optional
        Of the shaft, weighed or printed [kg].
    least_length, most_length : float, optional
        Playing length [m]; a loose shaft has none.
    words : str
        Each of them stands in what is written of head, shaft or club.
    """

    sort: str = "weight"
    least_mass: float | None = None
    most_mass: float | None = None
    least_length: float | None = None
    most_length: float | None = None
    words: str = ""

    @property
    def narrows(self) -> bool:
        """Whether anything is left out."""
        bounds = (self.least_mass, self.most_mass, self.least_length, self.most_length)
        return bool(self.words) or any(bound is not None for bound in bounds)


def _within(value: float | None, least: float | None, most: float | None) -> bool:
    """Return whether a value lies within bounds; one that is not known lies in none."""
    if least is None and most is None:
        return True
    if value is None:
        return False
    slack = 1e-9
    return (least is None or value >= least - slack) and (most is None or value <= most + slack)


def club_fits(rack: Rack, club: Assembly, wanted: Wanted) -> bool:
    """Return whether a whole club is looked for."""
    shaft = rack.pieces[club.shaft]
    written = f"{_written(rack, rack.pieces[club.head])} {_written(rack, shaft)}"
    return (
        _within(shaft_mass(rack, shaft), wanted.least_mass, wanted.most_mass)
        and _within(club.length, wanted.least_length, wanted.most_length)
        and _told(f"{written} {club.setting} {club.grip}", wanted.words)
    )


def shaft_fits(rack: Rack, piece: Piece, wanted: Wanted) -> bool:
    """Return whether a shaft, loose or in a club, is looked for."""
    lengths = [club.length for club in rack.assemblies.values() if club.shaft == piece.id]
    any_length = wanted.least_length is None and wanted.most_length is None
    return (
        _within(shaft_mass(rack, piece), wanted.least_mass, wanted.most_mass)
        and (
            any_length
            or any(_within(one, wanted.least_length, wanted.most_length) for one in lengths)
        )
        and _told(_written(rack, piece), wanted.words)
    )


def head_fits(rack: Rack, piece: Piece, wanted: Wanted) -> bool:
    """Return whether a head is looked for; bounds of shafts leave it out of nothing."""
    return _told(_written(rack, piece), wanted.words)


def _told(written: str, words: str) -> bool:
    """Return whether every word stands in a text, whatever its case and order."""
    text = written.casefold()
    return all(word in text for word in words.casefold().split())


def _written(rack: Rack, piece: Piece) -> str:
    """Return everything that is written of a piece: printed, marked, its line, place and code."""
    told = [piece.label, piece.place, piece.state.value, piece.reason, code_of(piece.id)]
    head, shaft = rack.heads.get(piece.model), rack.shafts.get(piece.model)
    if head is not None:
        told += [head.maker, head.name, head.family, head.generation, head.system]
        told.append(f"{head.hand.value}-handed")
    if shaft is not None:
        told += [shaft.maker, shaft.name, shaft.paper_label, shaft.family, shaft.generation]
    if piece.sleeve is not None:
        told.append(rack.sleeves[piece.sleeve].name)
    return " ".join(part for part in told if part)


def club_key(rack: Rack, sort: str) -> Callable[[Assembly], tuple[object, ...]]:
    """Return what whole clubs are sorted by; what is not weighed comes last."""

    def key(club: Assembly) -> tuple[object, ...]:
        head, shaft = rack.head_of(club), rack.pieces[club.shaft]
        model = rack.shafts[shaft.model]
        mass = shaft_mass(rack, shaft)
        grams = mass / GRAM if mass is not None else float("inf")
        label = (model.paper_label.lower(), model.name.lower())
        return {
            "weight": (grams, club.length, label),
            "length": (club.length, grams, label),
            "label": (label, grams, club.length),
            "head": (head.name.lower(), head.loft, grams, club.length),
        }[sort]

    return key


def shaft_key(rack: Rack, sort: str) -> Callable[[Piece], tuple[object, ...]]:
    """Return what shafts are sorted by; what is not weighed comes last."""

    def key(piece: Piece) -> tuple[object, ...]:
        model = rack.shafts[piece.model]
        mass = shaft_mass(rack, piece)
        grams = mass / GRAM if mass is not None else float("inf")
        label = (model.paper_label.lower(), model.name.lower())
        return (label, grams) if sort == "label" else (grams, label)

    return key
