"""Every ball of a fitting as it stands, with what mends one ball or a run of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.bay.cancelled import standing_entries
from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.setups import angles_of
from loftwright.domain.acts import Entry, NotOurs, OddBall
from loftwright.physics.sleeve import Convention
from loftwright.report.face_picture import strike_words
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.services.rack import Candidate
from loftwright.web.views.bay_taps import Tap

CONVENTIONS = {
    Convention.A: "the shaft stays where it was and is not twisted",
    Convention.B: "the head is soled flat",
    Convention.C: "the face is squared by turning the shaft at its lie",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BallRow:
    """One ball, or one reading that is none of this golfer's.

    Attributes
    ----------
    number : str
    state : str
        Why it does not count, where it does not.
    asked : int, optional
        Its sequence, where it was read and can be asked how the club came in.
    """

    number: str
    club: str
    setting: str
    figures: str
    mark: str
    state: str
    taps: tuple[Tap, ...]
    more: tuple[Tap, ...]
    asked: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingRow:
    """What a sleeve's setting makes of a club's head."""

    club: str
    setting: str
    planned: bool
    loft: str
    lie: str
    face: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MendsView:
    """The page.

    Attributes
    ----------
    first, last : int
        Of the run that stands in the form.
    clubs, settings : tuple of str
        To choose from.
    convention : str
        How the angles are meant.
    """

    say: str
    under: str
    rows: tuple[BallRow, ...]
    most: int
    first: int
    last: int
    clubs: tuple[str, ...]
    settings: tuple[str, ...]
    angles: tuple[SettingRow, ...]
    convention: str


def mends_view(
    now: FittingNow,
    record: Sequence[Entry],
    show: Show,
    convention: Convention,
    *,
    first: int | None = None,
    last: int | None = None,
) -> MendsView:
    """Return every ball with its mends.

    Parameters
    ----------
    now : FittingNow
    record : sequence of Entry
    show : Show
    convention : Convention
        How a sleeve's setting turns into loft, lie and face.
    first, last : int, optional
        Numbers of the run to mend; the newest run of one club without them.
    """
    flags = _flags(record)
    balls = now.balls
    most = balls[-1].number if balls else 0
    begin, end = _newest_run(balls)
    last_number = min(last or end, most)
    first_number = min(first or begin, last_number)
    ghosts = sum(one.not_ours for one in now.swings)
    set_aside = f"; {count(ghosts, 'reading')} not ours" if ghosts else ""
    return MendsView(
        say=f"{count(len(balls), 'ball')} in this fitting{set_aside}."
        if now.swings
        else "No ball yet.",
        under="Nothing is deleted: what is set aside stays here and in every export.",
        rows=tuple(_row(one, show, flags) for one in reversed(now.swings)),
        most=most,
        first=first_number,
        last=last_number,
        clubs=tuple(club.name for club in now.clubs),
        settings=tuple(
            dict.fromkeys(one.name for club in now.clubs for one in club.card.settings)
        ),
        angles=_angles(now, show, convention),
        convention=f"Convention {convention}: {CONVENTIONS[convention]}.",
    )


def adding_taps(offered: Sequence[Candidate], show: Show) -> tuple[Tap, ...]:
    """Return a tap for each club that can join, named by its parts."""
    return tuple(
        Tap(
            act="add-club",
            words=f"Add {one.card.head}, {show.angle(one.card.loft)}, {one.card.shaft}, "
            f"{show.length(one.card.length)}",
            fields={"assembly": one.assembly.id},
        )
        for one in offered
    )


def _flags(record: Sequence[Entry]) -> dict[tuple[type, int], int]:
    """Return the sequence of every standing act that sets a ball aside."""
    return {
        (type(entry.act), entry.act.ball): entry.sequence
        for entry in standing_entries(record)
        if isinstance(entry.act, NotOurs | OddBall)
    }


def _newest_run(balls: Sequence[Swing]) -> tuple[int, int]:
    if not balls:
        return 0, 0
    newest = first = balls[-1]
    for one in reversed(balls):
        if (one.club, one.setting) != (newest.club, newest.setting):
            break
        first = one
    return first.number, newest.number


def _row(one: Swing, show: Show, flags: dict[tuple[type, int], int]) -> BallRow:
    states = [
        words
        for holds, words in (
            (one.not_ours, "not ours"),
            (one.warm_up, "warm-up"),
            (one.odd, "odd, set aside"),
            (one.numbers is None, "hit, not read"),
        )
        if holds
    ]
    return BallRow(
        number=str(one.number) if one.number else "–",
        club=one.club or "",
        setting=one.setting,
        figures=_figures(one, show),
        mark=_mark(one),
        state=", ".join(states),
        taps=_taps(one, flags),
        more=_more(one),
        asked=None if one.numbers is None or one.not_ours else one.sequence,
    )


def _figures(one: Swing, show: Show) -> str:
    told = one.numbers
    if told is None:
        return ""
    parts = [show.speed(told.ball_speed)] if told.ball_speed is not None else []
    parts += [show.angle(told.launch)] if told.launch is not None else []
    parts += [show.spin(told.spin)] if told.spin is not None else []
    parts += (
        [f"carry {show.yards(told.carry)}"] if told.carry is not None and not parts[1:] else []
    )
    return ", ".join(parts)


def _mark(one: Swing) -> str:
    if one.mark is None:
        return ""
    where = one.mark.words or strike_words(one.mark.toe, one.mark.high)
    return f"{where} (of a set)" if one.mark_set is not None else where


def _taps(one: Swing, flags: dict[tuple[type, int], int]) -> tuple[Tap, ...]:
    of = {"ball_of": str(one.sequence)}
    ghost, odd = flags.get((NotOurs, one.sequence)), flags.get((OddBall, one.sequence))
    if ghost is not None:
        return (Tap(act="undo", words="Ours", fields={"act": str(ghost)}),)
    taps = [Tap(act="not-ours", words="Not ours", fields=of)]
    if odd is not None:
        taps.append(Tap(act="undo", words="Not odd", fields={"act": str(odd)}))
    else:
        taps.append(Tap(act="odd", words="Odd", fields=of))
    return tuple(taps)


def _more(one: Swing) -> tuple[Tap, ...]:
    """Return the mends of what stands about a ball: its mark, and balls that were not read."""
    here = str(one.sequence)
    if one.not_ours:
        return ()
    after = Tap(act="not-read", words="One after was not read", fields={"after": here})
    if one.mark is None:
        return (after,)
    first = {"first": here}
    return (
        after,
        Tap(act="dropped-before", words="One before was not read", fields=first),
        Tap(act="no-mark", words="No mark", fields={"ball_of": here}),
        Tap(act="shift-marks", words="Marks from here: a ball later", fields=first | {"by": "1"}),
        Tap(
            act="shift-marks",
            words="Marks from here: a ball earlier",
            fields=first | {"by": "-1"},
        ),
        Tap(act="mirror-marks", words="Marks from here: toe for heel", fields=first),
    )


def _angles(now: FittingNow, show: Show, convention: Convention) -> tuple[SettingRow, ...]:
    rows = []
    for club in now.clubs:
        for one in club.card.settings:
            angles = angles_of(club.card, one.name, convention)
            rows.append(
                SettingRow(
                    club=club.name,
                    setting=one.name,
                    planned=one.name == club.card.setting,
                    loft=show.angle(angles.loft),
                    lie=show.angle(angles.lie),
                    face=f"{show.angle(abs(angles.face))} {_open(angles.face)}".strip(),
                )
            )
    return tuple(rows)


def _open(face: float) -> str:
    if abs(face) < 1e-6:
        return ""
    return "open" if face > 0.0 else "closed"
