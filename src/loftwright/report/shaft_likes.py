"""What plays like a shaft, in words and in keys: by section, with the bench's noise."""

from typing import Final

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.likeness import Apart, Likeness
from loftwright.domain.sections import Difference, Section
from loftwright.domain.sought import BALANCE, BENDING, TWIST, WEIGHT, Liked, Near
from loftwright.report.layout import notes, paragraph, table
from loftwright.report.likeness_words import at, percent, plays_like
from loftwright.report.numbers import NONE, fixed, listed, signed
from loftwright.report.records import Record, rounded
from loftwright.report.shaft_records import key_of
from loftwright.report.shaft_words import unseen

_KEYS: Final = {section: section.value for section in Section}


def like_record(liked: Liked) -> Record:
    """Return what plays like a shaft with the keys of `loftwright shaft like`."""
    sought = liked.sought
    return {
        "shaft": liked.name,
        "by": sought.by,
        "sought_percent": {
            key_of(one): rounded(100.0 * share) for one, share in sought.shares.items()
        },
        "near": [_near(one, sought.by) for one in liked.near],
        "warnings": like_warnings(liked),
    }


def like_lines(liked: Liked, most: int) -> list[str]:
    """Return what plays like a shaft in words: the nearest, then a table.

    Parameters
    ----------
    liked : Liked
    most : int
        How many shafts the table has.
    """
    shown = liked.near[:most]
    sections = list(Section)
    headings = ["Shaft", *(_KEYS[one] for one in sections), "g", "mm", ""]
    cells = [
        [
            one.name,
            *(_percent(one.sections(liked.sought.by).get(section)) for section in sections),
            _plain(one.measured.mass, GRAM, 1),
            _plain(one.measured.balance, MILLIMETRE, 0),
            "not now" if one.why_not else "",
        ]
        for one in shown
    ]
    what = "GJ" if liked.sought.by == TWIST else "EI"
    lines = paragraph(_answer(liked))
    if shown:
        text = (
            f"Per cent of {what} against {liked.name}, and one standard deviation of the bench; "
            "weight and balance point of each."
        )
        lines += ["", *table(headings, cells, left=(0, 7)), "", *paragraph(text)]
    barred = [f"{one.why_not}" for one in shown if one.why_not]
    return [*lines, *notes([*barred, *like_warnings(liked)])]


def like_warnings(liked: Liked) -> list[str]:
    """Return what the bench cannot tell, and who was left out."""
    said = []
    nearest = liked.near[0] if liked.near else None
    for section, share in liked.sought.shares.items():
        told = None if nearest is None else nearest.sections(liked.sought.by).get(section)
        if told is not None and abs(told.share - share) > 2.0 * told.noise:
            said.append(
                f"No measured shaft comes nearer than {signed(100.0 * told.share, 1)} % "
                f"{at(section)}, all sections counted."
            )
        if told is not None and abs(share) <= 2.0 * told.noise:
            said.append(
                f"{percent(abs(share))} {at(section)} is no more than the bench can tell, "
                f"{percent(2.0 * told.noise)}."
            )
    if liked.unread:
        said.append(unseen(liked.unread))
    if liked.untold:
        said.append(f"Not read where it matters, and left out: {listed(liked.untold)}.")
    return said


def _answer(liked: Liked) -> str:
    if not liked.near:
        return f"No other measured shaft can be held against {liked.name}."
    nearest, sought = liked.near[0], liked.sought
    if not sought.shares and sought.by == BENDING:
        return plays_like(nearest.name, liked.name, nearest.likeness)
    if sought.by in {WEIGHT, BALANCE}:
        return f"Nearest to {liked.name} by {sought.by}: {nearest.name}, {_whole(nearest)}."
    if not sought.shares:
        return f"Nearest to {liked.name} by twist: {nearest.name}."
    wanted = listed(
        [
            f"{percent(abs(share))} {'firmer' if share > 0.0 else 'softer'} {at(one)}"
            for one, share in sought.shares.items()
        ]
    )
    sections = nearest.sections(sought.by)
    has = listed([f"{_percent(sections.get(one))} % {at(one)}" for one in sought.shares])
    return f"Nearest to {liked.name} but {wanted}: {nearest.name}, {has}."


def _whole(near: Near) -> str:
    found: Likeness = near.likeness
    parts = []
    for told, unit, name, digits in (
        (found.mass, GRAM, "g", 1),
        (found.balance, MILLIMETRE, "mm", 0),
    ):
        if isinstance(told, Apart):
            noise = fixed(told.noise / unit, 1)
            parts.append(f"{signed(told.value / unit, digits)} {name} (noise {noise})")
    return " and ".join(parts)


def _percent(told: Difference | None) -> str:
    if told is None:
        return "not seen"
    share, noise = 100.0 * told.share, 100.0 * told.noise * (1.0 + told.share)
    return f"{signed(share, 1)} ± {fixed(noise, 1)}"


def _plain(value: float | None, unit: float, digits: int) -> str:
    return NONE if value is None else fixed(value / unit, digits)


def _near(near: Near, by: str) -> Record:
    sections, found = near.sections(by), near.likeness
    return {
        "shaft": near.name,
        "id": near.piece.id,
        "percent": {
            key_of(one): rounded(100.0 * sections[one].share) if one in sections else None
            for one in Section
        },
        "noise": {
            key_of(one): rounded(100.0 * sections[one].noise * (1.0 + sections[one].share))
            if one in sections
            else None
            for one in Section
        },
        "mass_g": rounded(near.measured.mass, GRAM),
        "mass_g_apart": None if found.mass is None else rounded(found.mass.value, GRAM),
        "balance_mm": rounded(near.measured.balance, MILLIMETRE),
        "balance_mm_apart": (
            None if found.balance is None else rounded(found.balance.value, MILLIMETRE)
        ),
        "why_not": near.why_not or None,
    }
