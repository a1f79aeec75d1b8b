"""Balls that come all at once: a table that was pasted or uploaded, a paper sheet typed in."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import Marked
from loftwright.domain.names import OWN
from loftwright.domain.shot import Refusal
from loftwright.errors import ConflictError, InputError
from loftwright.intake.answers import all_answered
from loftwright.intake.file_rows import FileRows
from loftwright.intake.options import ReadOptions
from loftwright.intake.pasted import rows_of_text, rows_of_upload
from loftwright.intake.sheet_rows import SheetBall, balls_from_sheet
from loftwright.report.shot_sheet import MOST_BALLS, ShotSheet, planned_balls, shot_sheet_bytes
from loftwright.services.acting import act
from loftwright.services.bay_acts import line_order
from loftwright.services.data_folder import MAPPINGS
from loftwright.services.hands import handedness
from loftwright.services.settings import read_settings
from loftwright.services.shots import Taken, take
from loftwright.services.studio import Studio
from loftwright.services.ways_in import incoming, take_shots


@dataclass(frozen=True, slots=True, kw_only=True)
class TableTaken:
    """What became of a table.

    Attributes
    ----------
    new : int
        Balls that were not there before.
    known : int
        Balls that were there already.
    refused : tuple of Refusal
        Rows that are no ball, and why.
    """

    new: int
    known: int
    refused: tuple[Refusal, ...]
    warnings: tuple[str, ...]


def take_text(
    studio: Studio, fitting: str, text: str, answers: Sequence[str] = (), *, by: str = ""
) -> TableTaken:
    """Take the balls of a pasted table.

    Parameters
    ----------
    studio : Studio
    fitting : str
    text : str
        Headings and rows.
    answers : sequence of str
        What settles its doubts, as options of the command line.

    Raises
    ------
    DoubtsError
        When it can be read in more than one way; nothing was taken.
    IntakeError
        When it is no table of shots; nothing was taken.
    """
    return _taken(studio, fitting, rows_of_text(text, _options(studio, fitting, answers)), by)


def take_upload(
    studio: Studio,
    fitting: str,
    content: bytes,
    name: str,
    answers: Sequence[str] = (),
    *,
    by: str = "",
) -> TableTaken:
    """Take the balls of an uploaded file; it raises what `take_text` raises."""
    rows = rows_of_upload(content, name, _options(studio, fitting, answers))
    return _taken(studio, fitting, rows, by)


def take_sheet(
    studio: Studio, fitting: str, text: str, *, sheet: str, by: str = ""
) -> tuple[Taken, ...]:
    """Take the balls of a paper sheet in their true order, with their marks.

    Parameters
    ----------
    studio : Studio
    fitting : str
    text : str
        One line a ball; `after 17` says after which ball of the record those below were hit.
    sheet : str
        The sheet's own name, printed on it: typed in twice, a ball counts once.

    Raises
    ------
    SheetError
        With every line that is not understood; nothing was taken.
    InputError
        If a line says it came after a ball that the record does not have.
    """
    opened = studio.store.fitting(fitting).value
    settings = read_settings(studio).settings
    now = studio.standing(fitting)
    balls = balls_from_sheet(
        text,
        line_order(settings),
        sheet=sheet,
        clubs=tuple(club.name for club in now.clubs),
        mark_error=settings.mark_error(opened.fitter),
    )
    places = [_place(now, ball) for ball in balls]
    taken = []
    for ball, after in zip(balls, places, strict=True):
        one = take(studio, fitting, incoming(ball.ball.shot, after), source="sheet", by=by)
        if ball.ball.mark is not None:
            mark = Marked(mark=ball.ball.mark, ball=one.sequence)
            act(studio, one.fitting, [mark], by=by, key=f"{ball.ball.shot.key}:mark")
        taken.append(one)
    return tuple(taken)


def paper_sheet(studio: Studio, fitting: str) -> bytes:
    """Return the sheet for the balls that are still planned, as PDF."""
    opened = studio.store.fitting(fitting).value
    golfer = studio.store.golfer(opened.golfer).value
    settings = read_settings(studio).settings
    now = studio.standing(fitting)
    hit = len(now.balls) - (now.plan.swings_before if now.plan else 0)
    planned = planned_balls(now.plan.plan.sets)[hit:][:MOST_BALLS] if now.plan else ()
    names = tuple(club.name for club in now.clubs)
    first = len(now.balls) + 1
    return shot_sheet_bytes(
        ShotSheet(
            golfer=studio.store.identity(golfer.id).initials,
            balls=planned,
            clubs=names,
            own=OWN if OWN in names else None,
            first=first,
            hand=golfer.hand,
            metric=settings.units == "metric",
            day=now.visit.day if now.visit else opened.opened,
            sheet=sheet_name(fitting, first),
            bay=opened.bay,
            studio=settings.shop,
        )
    )


def sheet_name(fitting: str, first: int) -> str:
    """Return the name printed on a sheet: the fitting's first letters and its first ball."""
    return f"{fitting[:6]}-{first}"


def _options(studio: Studio, fitting: str, answers: Sequence[str]) -> ReadOptions:
    opened = studio.store.fitting(fitting).value
    if studio.standing(fitting).closed:
        raise ConflictError(
            "this fitting is closed and takes no balls",
            place=fitting,
            mend="Open it again, or open another fitting.",
        )
    hand = studio.store.golfer(opened.golfer).value.hand
    usual = ReadOptions(hand=handedness(hand), mappings_path=studio.folder / MAPPINGS)
    return all_answered(answers, usual)


def _taken(studio: Studio, fitting: str, rows: FileRows, by: str) -> TableTaken:
    taken = take_shots(studio, fitting, rows.shots, source="table", by=by)
    known = sum(one.repeated for one in taken)
    return TableTaken(
        new=len(taken) - known, known=known, refused=rows.refused, warnings=rows.warnings
    )


def _place(now: FittingNow, ball: SheetBall) -> int | None:
    """Return the sequence of the ball that a ball of the sheet was hit after."""
    if ball.after is None or ball.after == 0:
        return ball.after
    found = next((one for one in now.balls if one.number == ball.after), None)
    if found is None:
        raise InputError(
            f"the record has no ball {ball.after}",
            place=f"ball {ball.number} of the sheet",
            mend=f"Give a ball from 1 to {len(now.balls)}, or leave the line out.",
        )
    return found.sequence
