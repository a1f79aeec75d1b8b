"""A family's picture that may leave the shop, with how it came about under it."""

from loftwright import __version__
from loftwright.constants import GRAM
from loftwright.domain.rack import ShaftModel
from loftwright.errors import EvidenceError, NotFoundError
from loftwright.report.family_picture import FamilyLine, family_picture
from loftwright.report.numbers import count, listed
from loftwright.report.publish import Publication, published_png, published_svg
from loftwright.services.families import Family, Member

KINDS = ("svg", "png")


def drawn(family: Family) -> str:
    """Return a family's picture.

    Raises
    ------
    EvidenceError
        If there is nothing to compare yet.
    """
    shown = [one for one in family.members if one.samples]
    if family.reference is None or len(shown) < 2:
        raise EvidenceError(
            "there is nothing to draw yet",
            place="family",
            mend="Measure one sample of two of its models at least.",
        )
    lines = [
        FamilyLine(
            name=member_words(one),
            note=count(len(one.samples), "sample"),
            found=one.against,
            reference=one is family.reference,
        )
        for one in shown
    ]
    return family_picture(lines, reference=member_words(family.reference))


def published(family: Family, kind: str) -> bytes:
    """Return a family's picture with its publication block.

    Raises
    ------
    NotFoundError
        If there is no such kind of picture.
    EvidenceError
        If there is nothing to compare yet.
    """
    if kind not in KINDS:
        raise NotFoundError(
            f"there is no picture.{kind}", place="picture", mend="Ask for svg or png."
        )
    svg, block = drawn(family), publication(family)
    return published_svg(svg, block).encode() if kind == "svg" else published_png(svg, block)


def publication(family: Family) -> Publication:
    """Return how a family's picture came about."""
    shown = [one for one in family.members if one.samples]
    profiles = [profile for one in shown for profile in one.samples]
    benches = listed(tuple(dict.fromkeys(one.bench for one in profiles)))
    how = listed(tuple(dict.fromkeys(one.conditions for one in profiles)))
    days = sorted({one.day.isoformat() for one in profiles})
    known = ", ".join(
        f"{section.value} {100.0 * spread.sd:.1f} %" for section, spread in family.spreads.items()
    )
    spread = f"spread between samples: {known}" if known else "spread between samples not known"
    return Publication(
        samples=f"{count(len(profiles), 'sample')} of {count(len(shown), 'model')}; {spread}",
        obtained=f"bending stiffness along the shaft measured on {benches}: {how}",
        ball="none",
        device="bench for shafts",
        golfers="none",
        dates=days[0] if len(days) == 1 else f"{days[0]} to {days[-1]}",
        program=f"Loftwright {__version__}",
        ranges="95 in 100, from the spread of samples; hollow and dashed: none is claimed",
    )


def member_words(member: Member) -> str:
    """Return a model of a family in words: name, printed weight and label, generation."""
    return shaft_words(member.model)


def shaft_words(model: ShaftModel) -> str:
    """Return a shaft's model in words: name, printed weight and label, generation."""
    weight = "" if model.paper_mass is None else f"{model.paper_mass / GRAM:.0f} g"
    printed = " ".join(part for part in (model.name, weight, model.paper_label) if part)
    return f"{printed} ({model.generation})" if model.generation else printed
