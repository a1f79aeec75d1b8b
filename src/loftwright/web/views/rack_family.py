"""A family of shafts as its page shows it: generations, weights and labels, and what changed."""

from dataclasses import dataclass
from urllib.parse import quote

from loftwright.domain.sections import Section
from loftwright.errors import EvidenceError
from loftwright.report.family_words import cell_words, changed
from loftwright.report.numbers import NONE, count
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.families import Family, Member
from loftwright.services.family_picture import drawn, member_words


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberRow:
    """One model.

    Attributes
    ----------
    cells : tuple of (str, str)
        By section: the difference, and what it rests on.
    """

    id: str
    name: str
    generation: str
    weight: str
    samples: str
    reference: bool
    cells: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyView:
    """The page of a family.

    Attributes
    ----------
    picture : str
        Empty while there is nothing to compare.
    changes : tuple of str
        What changed from each model to the one that replaces it.
    path : str
        The page's own address.
    """

    sentence: str
    lead: str
    name: str
    path: str
    reference: str
    reference_id: str
    picture: str
    rows: tuple[MemberRow, ...]
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyLink:
    """A family in the list of all."""

    name: str
    path: str
    words: str


def family_view(family: Family, show: Show) -> FamilyView:
    """Return the page of a family.

    Parameters
    ----------
    family : Family
    show : Show
    """
    changes = tuple(
        changed(_before(family, one), member_words(one), one.since)
        for one in family.members
        if one.replaces is not None
    )
    measured = sum(len(one.samples) for one in family.members)
    reference = member_words(family.reference) if family.reference is not None else ""
    return FamilyView(
        sentence=_sentence(family, changes, measured),
        lead=_lead(family, measured),
        name=family.name,
        path=f"/rack/families/{quote(family.name, safe='')}",
        reference=reference,
        reference_id=family.reference.model.id if family.reference is not None else "",
        picture=_picture(family),
        rows=tuple(_row(family, one, show) for one in family.members),
        changes=changes,
    )


def family_links(families: tuple[Family, ...]) -> tuple[FamilyLink, ...]:
    """Return every family with what is known of it."""
    return tuple(
        FamilyLink(
            name=one.name,
            path=f"/rack/families/{quote(one.name, safe='')}",
            words=f"{count(len(one.members), 'model')}, "
            f"{count(sum(len(member.samples) for member in one.members), 'measured sample')}",
        )
        for one in families
    )


def _before(family: Family, member: Member) -> str:
    old = member.replaces
    known = next(
        (one for one in family.members if old is not None and one.model.id == old.id), None
    )
    if known is not None:
        return member_words(known)
    return "" if old is None else f"{old.name} {old.paper_label}".strip()


def _sentence(family: Family, changes: tuple[str, ...], measured: int) -> str:
    if not measured:
        return f"No {family.name} is measured yet: nothing is said of what its models do."
    told = [one for one in changes if not one.startswith("From ")]
    if told:
        return told[-1]
    if changes:
        return changes[-1]
    return f"{family.name} has {count(len(family.members), 'model')} and no generation before."


def _lead(family: Family, measured: int) -> str:
    if not measured:
        return "Measure two samples of one model at least: only their spread bears a claim."
    models = sum(bool(one.samples) for one in family.members)
    base = f"{count(measured, 'measured sample')} of {count(models, 'model')}"
    if not family.spreads:
        return f"{base}; no model has two, so how much samples differ is not known."
    widest = max(family.spreads.items(), key=lambda pair: pair[1].sd)
    return (
        f"{base}; samples of one model differ by up to {100.0 * widest[1].sd:.1f} % (one sigma)."
    )


def _picture(family: Family) -> str:
    try:
        return for_screen(drawn(family))
    except EvidenceError:
        return ""


def _row(family: Family, member: Member, show: Show) -> MemberRow:
    model = member.model
    is_reference = member is family.reference
    cells = tuple(
        ("0", "the reference") if is_reference else cell_words(member.against.get(section))
        for section in Section
    )
    if not member.samples:
        cells = tuple((NONE, "not measured") for _ in Section)
    return MemberRow(
        id=model.id,
        name=f"{model.name} {model.paper_label}".strip(),
        generation=model.generation or NONE,
        weight=NONE if model.paper_mass is None else show.mass(model.paper_mass),
        samples=str(len(member.samples)),
        reference=is_reference,
        cells=cells,
    )
