"""A measured shaft: what it plays like, section by section, and its profiles."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.arrays import FloatArray
from loftwright.constants import INCH, MILLIMETRE
from loftwright.domain.likeness import Likeness
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack
from loftwright.domain.sections import Section, extent
from loftwright.report.likeness_words import (
    NOT_MEASURED,
    NOT_SEEN,
    apart_words,
    at,
    differs_most,
    percent,
    plays_like,
    section_words,
    softer,
)
from loftwright.report.numbers import count, fixed
from loftwright.report.shaft_ribbon import shaft_ribbon
from loftwright.report.theme_svg import for_screen
from loftwright.services.measuring import BY, Alike
from loftwright.web.views.rack_lineage import sample_words
from loftwright.web.views.rack_rows import Choice

BY_WORDS = tuple(Choice(value=one, text=one.capitalize()) for one in BY)
SECTION_WORDS = tuple(Choice(value=one.value, text=one.value.capitalize()) for one in Section)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionRow:
    """One section of two shafts."""

    name: str
    where: str
    bending: str
    twisting: str
    density: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeRow:
    """Another measured shaft.

    Attributes
    ----------
    lead : bool
        Whether the sentence speaks of it.
    """

    piece: str
    name: str
    differs: str
    distance: str
    mass: str
    balance: str
    state: str
    lead: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileRow:
    """One measurement of this shaft."""

    id: str
    day: str
    bench: str
    conditions: str
    stations: str
    set_aside: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeView:
    """The page of a shaft's shape.

    Attributes
    ----------
    picture : str
        Empty while there is nothing to compare with.
    whole : tuple of (str, str)
        Differences of the whole shafts in words.
    hidden : str
        How many shafts are not of the shape that is sought.
    """

    sentence: str
    lead: str
    name: str
    picture: str = ""
    reference: str = ""
    sections: tuple[SectionRow, ...] = ()
    whole: tuple[tuple[str, str], ...] = ()
    others: tuple[AlikeRow, ...] = ()
    hidden: str = ""
    profiles: tuple[ProfileRow, ...] = ()


def shape_view(
    rack: Rack,
    piece: str,
    profiles: Sequence[MeasuredProfile],
    mine: MeasuredProfile | None,
    found: Sequence[Alike],
    against: Alike | None,
    hidden: int,
) -> ShapeView:
    """Return the page of a shaft's shape.

    Parameters
    ----------
    rack : Rack
    piece : str
    profiles : sequence of MeasuredProfile
        Every one of this shaft, the oldest first.
    mine : MeasuredProfile, optional
        The one that stands.
    found : sequence of Alike
        Other shafts of the shape that is sought, the likest first; each against this one.
    against : Alike, optional
        Which of all others the picture compares with.
    hidden : int
        Shafts that are left out.
    """
    name = sample_words(rack, rack.pieces[piece])
    rows = tuple(_profile(one) for one in reversed(profiles))
    if mine is None:
        aside = " Its profiles are all set aside." if profiles else ""
        return ShapeView(
            sentence=f"{name} is not measured: nothing is said of what it plays like.",
            lead=f"Type its profile below, or bring it in with a file.{aside}",
            name=name,
            profiles=rows,
        )
    if against is None:
        return ShapeView(
            sentence=f"{name} is measured, and no other shaft is: there is nothing to compare.",
            lead="One more measured shaft is enough.",
            name=name,
            profiles=rows,
        )
    other = sample_words(rack, against.piece)
    return ShapeView(
        sentence=plays_like(other, name, against.likeness),
        lead=_lead(mine, against.profile),
        name=name,
        picture=_picture(mine, against, name, other),
        reference=other,
        sections=_sections(mine, against),
        whole=(
            ("Weight", apart_words(against.likeness.mass, "mass")),
            ("Balance point", apart_words(against.likeness.balance, "length")),
        ),
        others=tuple(_alike(rack, one, lead=one.piece == against.piece) for one in found),
        hidden=f"{count(hidden, 'shaft')} not of that shape" if hidden else "",
        profiles=rows,
    )


def _picture(mine: MeasuredProfile, against: Alike, name: str, other: str) -> str:
    under = {section: section_words(against.likeness.bending.get(section)) for section in Section}
    ribbon = shaft_ribbon(against.profile, mine, name=other, reference=name, under=under)
    return for_screen(ribbon)


def _lead(mine: MeasuredProfile, other: MeasuredProfile) -> str:
    if mine.bench != other.bench:
        return f"Measured on {mine.bench} and {other.bench}: their scales add to the noise."
    if mine.conditions != other.conditions:
        return f"Not measured alike: {mine.conditions}; {other.conditions}."
    return f"Both on {mine.bench}: {mine.conditions}."


def _sections(mine: MeasuredProfile, against: Alike) -> tuple[SectionRow, ...]:
    rows = []
    for section in Section:
        lies = extent(section, min(mine.length, against.profile.length))
        if lies is None:
            continue
        low, high = lies
        rows.append(
            SectionRow(
                name=section.value.capitalize(),
                where=f"{low / MILLIMETRE:.0f} to {high / MILLIMETRE:.0f} mm, "
                f"{fixed(low / INCH, 1)} to {fixed(high / INCH, 1)} in",
                bending=section_words(against.likeness.bending.get(section)),
                twisting=section_words(against.likeness.twisting.get(section))
                if _both(mine.twisting, against.profile.twisting)
                else NOT_MEASURED,
                density=section_words(against.likeness.density.get(section))
                if _both(mine.density, against.profile.density)
                else NOT_MEASURED,
            )
        )
    return tuple(rows)


def _both(one: FloatArray | None, other: FloatArray | None) -> bool:
    return one is not None and other is not None


def _alike(rack: Rack, one: Alike, *, lead: bool) -> AlikeRow:
    return AlikeRow(
        piece=one.piece.id,
        name=sample_words(rack, one.piece),
        differs=_differs(one.likeness),
        distance=_distance(one.likeness),
        mass=apart_words(one.likeness.mass, "mass"),
        balance=apart_words(one.likeness.balance, "length"),
        state=one.why_not,
        lead=lead,
    )


def _differs(found: Likeness) -> str:
    if not found.bending:
        return NOT_SEEN
    widest = differs_most(found)
    if widest is None:
        return "too close to call"
    section, told = widest
    return f"{softer(told)} {at(section)}"


def _distance(found: Likeness) -> str:
    if found.distance is None or found.noise is None:
        return "–"
    return f"{percent(found.distance)}, noise {percent(found.noise)}"


def _profile(one: MeasuredProfile) -> ProfileRow:
    return ProfileRow(
        id=one.id,
        day=f"{one.day.day} {one.day:%B %Y}",
        bench=one.bench,
        conditions=one.conditions,
        stations=count(len(one.station), "station"),
        set_aside=one.set_aside,
    )
