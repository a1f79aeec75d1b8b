"""Looks at the labels of a table: clubs, golfers, days and kinds of club that must not mix."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from loftwright.errors import IntakeError
from loftwright.intake.body import MAX_CLUBS, Row, day_of
from loftwright.intake.cells import is_blank_label
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option
from loftwright.intake.kinds import DRIVER, club_kind
from loftwright.intake.settle import FILL_DOWN, ONE_KIND, REFUSE_BLANK, heading_key

NO_CLUB = "(no club named)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """The club of every row, and what is open about labels.

    Attributes
    ----------
    clubs : tuple of str
        Club of each row; empty where the row is refused for want of one.
    doubts : tuple of Doubt
        Questions about clubs, golfers and days.
    warnings : tuple of str
        What was taken without asking.
    """

    clubs: tuple[str, ...]
    doubts: tuple[Doubt, ...]
    warnings: tuple[str, ...]


def _first_of_each(rows: Sequence[Row], values: Sequence[str]) -> dict[str, tuple[int, str]]:
    """Return, for every distinct label, the first row and spelling that has it."""
    found: dict[str, tuple[int, str]] = {}
    for row, value in zip(rows, values, strict=True):
        if value:
            found.setdefault(heading_key(value), (row.line, value))
    return found


def _mixed(name: str, what: str, key: str, found: dict[str, tuple[int, str]]) -> Doubt:
    listed = [value for _, value in found.values()]
    shown = ", ".join(listed[:6]) + (" …" if len(listed) > 6 else "")
    return Doubt(
        column=name,
        question=f"the table holds {len(listed)} {what} ({shown}); they are not read together",
        samples=tuple(found.values())[:3],
        options=tuple(quoted_option("--only", f"{key}={value}") for value in listed[:6]),
    )


def golfer_doubts(rows: Sequence[Row], plans: Sequence[Plan]) -> list[Doubt]:
    """Return a question where several golfers are in one table."""
    doubts = []
    for plan in plans:
        if plan.means == "golfer":
            cells = [row.cells[plan.index] for row in rows]
            found = _first_of_each(rows, ["" if is_blank_label(cell) else cell for cell in cells])
            if len(found) > 1:
                doubt = _mixed(plan.name, "golfers", plan.name, found)
                if not any(other.means == "club" for other in plans):
                    way = quoted_option("--club-column", plan.name)
                    doubt = replace(doubt, options=(*doubt.options, way))
                doubts.append(doubt)
    return doubts


def day_doubts(rows: Sequence[Row], plans: Sequence[Plan]) -> list[Doubt]:
    """Return a question where several days are in one table."""
    doubts = []
    for plan in plans:
        if plan.means == "time":
            found = _first_of_each(rows, [day_of(row.cells[plan.index]) for row in rows])
            if len(found) > 1:
                doubts.append(_mixed(plan.name, "days", plan.name, found))
    return doubts


def kind_doubts(rows: Sequence[Row], plans: Sequence[Plan]) -> list[Doubt]:
    """Return a question where clubs of several kinds are in one table, or none are drivers."""
    doubts = []
    for plan in plans:
        if plan.means == "club" and ONE_KIND not in plan.manners:
            kinds = [club_kind(row.cells[plan.index]) for row in rows]
            found = _first_of_each(rows, kinds)
            way = quoted_option("--column", f"{plan.name}=club[{ONE_KIND}]")
            if len(found) > 1:
                doubt = _mixed(plan.name, "kinds of club", "kind", found)
                doubts.append(replace(doubt, options=(*doubt.options, way)))
            elif found and DRIVER not in found:
                doubts.append(_no_drivers(plan.name, found, way))
    return doubts


def _no_drivers(name: str, found: dict[str, tuple[int, str]], way: str) -> Doubt:
    """Return the question whether clubs called otherwise are drivers all the same."""
    kind = ", ".join(value for _, value in found.values())
    return Doubt(
        column=name,
        question=f"the clubs are called {kind}: flight, impact and value hold for drivers alone; "
        "if they are drivers, say so",
        samples=tuple(found.values()),
        options=(way,),
    )


def _choose(rows: Sequence[Row], named: list[Plan]) -> tuple[Plan | None, list[Doubt]]:
    """Return the column that names the club, with a question where several could."""
    if not named:
        return None, []
    texts = {plan.index: [row.cells[plan.index] for row in rows] for plan in named}
    varying = [plan for plan in named if len({text for text in texts[plan.index] if text}) > 1]
    if len(named) == 1 or not varying or varying == named[:1]:
        return named[0], []
    doubt = Doubt(
        column=named[0].name,
        question=f"{', '.join(repr(plan.name) for plan in named)} could each name the club",
        samples=tuple(
            (row.line, " | ".join(row.cells[plan.index] for plan in named)) for row in rows[:3]
        ),
        options=tuple(quoted_option("--club-column", plan.name) for plan in named),
    )
    return named[0], [doubt]


def clubs_above(rows: Sequence[Row], plans: Sequence[Plan]) -> list[str]:
    """Return, row by row, the club last named in it or above it, as in a heading of a block."""
    plan = next((plan for plan in plans if plan.means == "club"), None)
    current, found = "", []
    for row in rows:
        cell = "" if plan is None else row.cells[plan.index]
        current = current if is_blank_label(cell) else cell
        found.append(current)
    return found


def read_labels(
    rows: Sequence[Row], plans: Sequence[Plan], above: Sequence[str], *, place: str
) -> Labels:
    """Return the club of every row, with the questions that labels raise.

    Parameters
    ----------
    rows : sequence of Row
        The swings.
    plans : sequence of Plan
        The columns.
    above : sequence of str
        The club last named in each row or above it.
    place : str
        The file, for the message.

    Raises
    ------
    IntakeError
        When there are more clubs than a fitting may have.
    """
    named = [plan for plan in plans if plan.means == "club"]
    plan, doubts = _choose(rows, named)
    warnings: list[str] = []
    doubts += golfer_doubts(rows, plans) + day_doubts(rows, plans) + kind_doubts(rows, plans)
    if plan is None:
        warnings.append("no column names the club: all balls are read as one club's")
        return Labels(clubs=(NO_CLUB,) * len(rows), doubts=tuple(doubts), warnings=tuple(warnings))
    texts = [
        "" if is_blank_label(row.cells[plan.index]) else row.cells[plan.index] for row in rows
    ]
    clubs = _fill(rows, texts, above, plan, doubts, warnings)
    distinct = list(dict.fromkeys(club for club in clubs if club))
    if len(distinct) > MAX_CLUBS:
        raise IntakeError(
            f"{plan.name!r} names {len(distinct)} clubs; one fitting has at most {MAX_CLUBS}",
            place=place,
            mend='Keep some with --only, or name another column with --club-column "...".',
        )
    alike: dict[str, str] = {}
    for club in distinct:
        other = alike.setdefault(heading_key(club), club)
        if other != club:
            warnings.append(
                f"{plan.name!r}: {other!r} and {club!r} differ in spelling only and are read as "
                "two clubs"
            )
    return Labels(clubs=tuple(clubs), doubts=tuple(doubts), warnings=tuple(warnings))


def _fill(
    rows: Sequence[Row],
    texts: list[str],
    above: Sequence[str],
    plan: Plan,
    doubts: list[Doubt],
    warnings: list[str],
) -> list[str]:
    """Return the clubs with blank cells filled as settled, or ask how."""
    if not any(above):
        warnings.append(f"{plan.name!r} is blank: all balls are read as one club's")
        return [NO_CLUB] * len(texts)
    blank = [row.line for row, text in zip(rows, texts, strict=True) if not text]
    if not blank or REFUSE_BLANK in plan.manners:
        return texts
    if FILL_DOWN in plan.manners:
        return list(above)
    doubts.append(
        Doubt(
            column=plan.name,
            question=(
                f"{plan.name!r} names no club in {len(blank)} of {len(texts)} rows "
                f"(row {', '.join(map(str, blank[:5]))}{' …' if len(blank) > 5 else ''})"
            ),
            samples=tuple((row.line, text) for row, text in zip(rows, texts, strict=True))[:3],
            options=(
                quoted_option("--column", f"{plan.name}=club[{FILL_DOWN}]"),
                quoted_option("--column", f"{plan.name}=club[{REFUSE_BLANK}]"),
            ),
        )
    )
    return texts
