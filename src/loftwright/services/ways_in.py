"""The ways a ball comes in: a feed, a file, pasted text, a typed line, a paper sheet."""

from collections.abc import Sequence

from loftwright.intake.feed import FeedShot, shot_from_record
from loftwright.services.shots import Incoming, Taken, take, take_all
from loftwright.services.studio import Studio


def take_feed(
    studio: Studio, fitting: str, record: object, *, line: str | None = None, by: str = ""
) -> Taken:
    """Take a ball that a device or program posts.

    Parameters
    ----------
    studio : Studio
    fitting : str
    record : object
        The decoded JSON.
    line : str, optional
        The body as it came.
    by : str
        The paired device that sent it.

    Raises
    ------
    IntakeError
        For a key or value that cannot be.
    ConflictError
        If the fitting is closed.
    """
    return take(
        studio, fitting, incoming(shot_from_record(record, line=line)), source="feed", by=by
    )


def take_shots(
    studio: Studio,
    fitting: str,
    shots: Sequence[FeedShot],
    *,
    source: str,
    after: int | None = None,
    by: str = "",
) -> tuple[Taken, ...]:
    """Take balls of a file, of pasted text or of a sheet, in their order of play.

    Parameters
    ----------
    shots : sequence of FeedShot
    source : str
        folder, table, keyboard or sheet.
    after : int, optional
        Sequence of the ball they were hit after, where they are typed in later.
    """
    balls = [incoming(shot, after) for shot in shots]
    return take_all(studio, fitting, balls, source=source, by=by)


def incoming(shot: FeedShot, after: int | None = None) -> Incoming:
    """Return a ball of any feed as the record takes it."""
    return Incoming(
        numbers=shot.numbers,
        key=shot.key,
        club=shot.club,
        line=shot.line,
        time=shot.time,
        device=shot.device,
        read=shot.read,
        after=after,
        problems=shot.problems,
    )
