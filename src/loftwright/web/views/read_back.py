"""An old fitting that was read again: its sentence, its picture, its table, its claims."""

import shlex
from dataclasses import dataclass
from typing import Any

from loftwright.evidence.result import Against, Claim, ClubResult, Decision, Figures
from loftwright.report.choice_marks import ChoiceMark, Reach
from loftwright.report.choice_picture import choice_picture
from loftwright.report.claim_words import told_claims
from loftwright.report.clubs_table import clubs_table
from loftwright.report.could_show import CouldShow, could_show, could_show_sentences
from loftwright.report.look import CLUB_COLOURS
from loftwright.report.marks import Mark, deal_marks
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.report.wording import objection, reference, sentence
from loftwright.services.read import Reading
from loftwright.web.markers import COLOUR_NAMES


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A figure with its range under it."""

    text: str
    under: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadRow:
    """One club of the file.

    Attributes
    ----------
    outline, kind : str
        Of its marker: the path, and its colour's name in the style sheet.
    rests : str
        What its figures rest on.
    """

    club: str
    outline: str
    kind: str
    rests: str
    close: bool
    lead: bool
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """The balls of a club, and the smallest difference that they could tell."""

    club: str
    balls: str
    difference: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A row of the file that is no ball of the comparison."""

    row: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadView:
    """A file that was read.

    Attributes
    ----------
    picture : str
        Empty where totals or sides may not be said.
    told_apart : tuple of Telling
        Empty where no two clubs can be compared.
    could_not : tuple of str
        Sentences.
    warnings : tuple of str
        Doubts that do not stop the reading.
    """

    sentence: str
    lead: str
    picture: str
    heads: tuple[str, ...]
    rows: tuple[ReadRow, ...]
    note: str
    told_apart: tuple[Telling, ...]
    could_not: tuple[str, ...]
    may: tuple[Claim, ...]
    may_not: tuple[Claim, ...]
    counted: str
    refused: tuple[Refused, ...]
    warnings: tuple[str, ...]


def read_view(reading: Reading, show: Show) -> ReadView:
    """Return the page of a file that was read.

    Parameters
    ----------
    reading : Reading
    show : Show
        The shop's units, whatever the file's were.
    """
    decision = reading.decision
    marks = deal_marks([club.club for club in decision.clubs], decision.own)
    table = clubs_table(decision, show)
    claims = told_claims(decision.claims, show)
    shown = could_show(decision, reading.table)
    return ReadView(
        sentence=sentence(decision, show),
        lead=objection(decision, show),
        picture=_picture(decision, marks, show),
        heads=tuple(table["heads"]),
        rows=tuple(
            _row(row, club.club, marks, lead=place + 1 == table["leader"])
            for place, (row, club) in enumerate(zip(table["rows"], decision.clubs, strict=True))
        ),
        note=table["note"],
        told_apart=_told_apart(shown, show),
        could_not=tuple(_sentence(text) for text in could_show_sentences(shown, show)),
        may=tuple(claim for claim in claims if claim.may),
        may_not=tuple(claim for claim in claims if not claim.may),
        counted=_counted(reading),
        refused=tuple(Refused(row=one.row, why=one.why) for one in reading.table.refused),
        warnings=(*reading.table.warnings, *decision.warnings),
    )


def _row(row: dict[str, Any], club: str, marks: dict[str, Mark], *, lead: bool) -> ReadRow:
    mark = marks[club]
    return ReadRow(
        club=club,
        outline=mark.path(0.0, 0.0, 11.0),
        kind="own" if mark.is_ring else COLOUR_NAMES[CLUB_COLOURS.index(mark.colour)],
        rests=row["rests"],
        close=row["close"],
        lead=lead,
        cells=tuple(Cell(text=one["text"], under=one.get("under", "")) for one in row["cells"]),
    )


def _picture(decision: Decision, marks: dict[str, Mark], show: Show) -> str:
    drawn = [one for one in (_mark(club, marks) for club in decision.clubs) if one is not None]
    if not drawn:
        return ""
    hole = decision.home.holes[0] if decision.home.holes else None
    own = decision.against is Against.OWN
    return for_screen(
        choice_picture(
            drawn,
            zero=reference(decision) if own else "the mean of the clubs",
            pattern=decision.pattern,
            fairway=hole.fairway if hole is not None else None,
            prefix="read",
            show=show,
        )
    )


def _mark(club: ClubResult, marks: dict[str, Mark]) -> ChoiceMark | None:
    figures, level = club.as_you_swing_it or Figures(), club.level
    if figures.total is None or figures.offline is None or level is None:
        return None
    offline = Reach.of(figures.offline, shift=level.offline - figures.offline.mean)
    return ChoiceMark(
        club=club.club,
        shape=marks[club.club],
        total=Reach.of(figures.total),
        offline=offline,
    )


def _told_apart(shown: CouldShow, show: Show) -> tuple[Telling, ...]:
    if all(one.difference is None for one in shown.clubs):
        return ()
    found = []
    for one in shown.clubs:
        words = "the others are told from it"
        if one.against:
            words = f"too few balls to tell it from {one.against}"
        if one.difference is not None:
            words = f"{show.yards(one.difference)} from {one.against}"
        found.append(Telling(club=one.club, balls=f"{one.balls}", difference=words))
    return tuple(found)


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _counted(reading: Reading) -> str:
    table = reading.table
    told = [f"{count(table.read, 'row')} read", f"{reading.used} used"]
    if reading.odd:
        told.append(f"{reading.odd} odd, counted for less")
    if table.refused:
        told.append(f"{len(table.refused)} refused")
    return f"{listed(told)}. Nothing of the file is kept."


def way_words(option: str) -> str:
    """Return an answer to a doubt in words, where it is one of the usual ones."""
    try:
        name, *rest = shlex.split(option)
    except ValueError:
        return option
    heading, sign, means = " ".join(rest).partition("=")
    if name == "--column" and sign:
        if means == "ignore":
            return f"Leave {heading} out"
        return f"{heading} is {means.replace('[', ' in ').replace(']', '')}"
    if name == "--only" and sign:
        return f"Only rows whose {heading} is {means}"
    return f"{heading} names the club" if name == "--club-column" else option
