"""What can be tapped in the bay: one button, one act."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from loftwright.bay.next_set import Step
from loftwright.bay.now import ClubNow, LastAct
from loftwright.domain.names import OWN
from loftwright.report.bay_words import repeat_words, undo_words
from loftwright.services.bay_now import BayNow
from loftwright.services.last_ball import last_ball


@dataclass(frozen=True, slots=True, kw_only=True)
class Tap:
    """A button.

    Attributes
    ----------
    act : str
        Last part of the act's address; empty for one that goes elsewhere.
    words : str
    fields : mapping of str to str
    kind : str
        `go` for the main action, `then` for one that follows it, `wide` for one that a narrow
        screen leaves to another panel.
    key : str
        The letter that does the same.
    ready : bool
    to : str
        Address of another page, for a link.
    opens : str
        Id of a panel of this page that it opens.
    """

    act: str = ""
    words: str
    fields: Mapping[str, str] = field(default_factory=dict)
    kind: str = ""
    key: str = ""
    ready: bool = True
    to: str = ""
    opens: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarView:
    """The bar at the foot: what corrects on the left, what goes on on the right."""

    left: tuple[Tap, ...]
    right: tuple[Tap, ...]


def bar_view(bay: BayNow, closing: int | None) -> BarView:
    """Return the bar of a fitting's bay.

    Parameters
    ----------
    bay : BayNow
    closing : int, optional
        Sequence of the act that closed the fitting.
    """
    return BarView(left=_left(bay), right=_right(bay, closing))


def first_name(name: str) -> str:
    """Return the first word of a name, as it is called across a bay."""
    return name.strip().partition(" ")[0]


def seen_tap(club: ClubNow, *, kind: str, ready: bool = True) -> Tap:
    """Return the second tap of a hand-over: the sleeve sits as it is planned."""
    return Tap(
        act="setting-seen",
        words=f"Sleeve {club.card.setting}: seen",
        fields={"setting": club.card.setting},
        kind=kind,
        key="s",
        ready=ready,
    )


def hand_tap(club: str, *, kind: str = "go", still: bool = False) -> Tap:
    """Return the tap that names the club in hand."""
    words = f"Still {club}" if still else f"{club} in hand"
    return Tap(act="hand-over", words=words, fields={"club": club}, kind=kind, key="c")


def _left(bay: BayNow) -> tuple[Tap, ...]:
    now = bay.now
    undo = now.undoable
    taps = [
        Tap(
            act="undo",
            words=undo_words(undo) or "Nothing to undo",
            fields={"act": str(undo.sequence)} if undo else {},
            key="u",
            ready=undo is not None,
        )
    ]
    if now.repeatable is not None:
        taps.append(_again(now.repeatable, kind="wide"))
    ball = last_ball(now)
    if ball is not None:
        taps.append(
            Tap(
                act="not-ours",
                words=f"{ball.number or 'Last'} not ours",
                fields={"ball_of": str(ball.sequence)},
                key="g",
            )
        )
    taps.append(Tap(words="Other club", opens="other-club", key="o"))
    taps.append(Tap(words="More", opens="more"))
    return tuple(taps)


def _again(undone: LastAct, *, kind: str = "") -> Tap:
    return Tap(
        act="undo",
        words=repeat_words(undone),
        fields={"act": str(undone.sequence)},
        kind=kind,
        key="r",
    )


def _right(bay: BayNow, closing: int | None) -> tuple[Tap, ...]:
    now, here = bay.now, bay.fitting.id
    if now.closed:
        return (
            Tap(
                act="undo",
                words="Open again",
                fields={"act": str(closing)},
                kind="go",
                ready=closing is not None,
            ),
        )
    if bay.turn != here:
        return (
            Tap(
                act="turn",
                words=f"{first_name(bay.name)} hits",
                fields={"to": here},
                kind="go",
                key="t",
            ),
        )
    if now.visit is None:
        return (Tap(words="Plan and open", to=f"/fittings/{here}/plan", kind="go"),)
    if bay.ask_club and now.in_hand:
        return (hand_tap(now.in_hand, still=True), Tap(words="No, another", opens="other-club"))
    return _by_step(bay, now.club(now.in_hand or ""))


def _by_step(bay: BayNow, club: ClubNow | None) -> tuple[Tap, ...]:
    now, step = bay.now, bay.next.step
    wanted = now.club(bay.next.club or "")
    if step is Step.STOP:
        return (Tap(act="close", words="Close the fitting", kind="go"),)
    if step is Step.DONE:
        choice = Tap(words="Which one?", to=f"/fittings/{bay.fitting.id}/choice", kind="go")
        return (Tap(act="close", words="Close the fitting"), choice)
    if wanted is not None and wanted.name != now.in_hand:
        first = hand_tap(wanted.name)
        then = (seen_tap(wanted, kind="then", ready=False),) if wanted.card.settings else ()
        return (first, *then)
    return _with_club(bay, club)


def _with_club(bay: BayNow, club: ClubNow | None) -> tuple[Tap, ...]:
    """Return what goes on with the club in hand: its sleeve is looked at before all else."""
    warming = bay.next.step is Step.WARM_UP
    unseen = club is not None and bool(club.card.settings) and bay.now.seen is None
    kind = "go" if warming and not unseen else ""
    warm = Tap(act="warm-up-done", words="Warm-up done", key="w", kind=kind)
    on = (warm if warming else _not_read_tap(),)
    if club is None:
        return (
            *(on if warming else ()),
            Tap(words="Choose the club", opens="other-club", kind="go"),
        )
    return (*on, seen_tap(club, kind="go")) if unseen else on


def _not_read_tap() -> Tap:
    return Tap(act="not-read", words="Hit, not read", key="n")


def club_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return a tap for every club that may be handed over instead, Own first."""
    clubs = sorted(bay.now.clubs, key=lambda club: club.name != OWN)
    return tuple(
        Tap(act="hand-over", words=f"{club.name} in hand", fields={"club": club.name})
        for club in clubs
        if not club.out and club.name != bay.now.in_hand
    )


def it_was_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return a tap for every club that the ball after a pause may have been hit with."""
    if not bay.ask_club:
        return ()
    return tuple(
        Tap(act="it-was", words=f"It was {club.name}", fields={"club": club.name})
        for club in bay.now.clubs
        if not club.out and club.name != bay.now.in_hand
    )


def leave_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return a tap for every club that may leave the comparison; its balls stay."""
    return tuple(
        Tap(act="drop-club", words=f"Leave {club.name} out", fields={"club": club.name})
        for club in bay.now.clubs
        if not club.out and club.name != OWN
    )


def setting_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return a tap for every way the sleeve of the club in hand may have been seen to sit."""
    club = bay.now.club(bay.now.in_hand or "")
    if club is None:
        return ()
    return tuple(
        Tap(
            act="setting-seen",
            words=f"Sleeve {one.name}: seen",
            fields={"setting": one.name},
        )
        for one in club.card.settings
        if one.name != bay.now.seen
    )


def care_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return what stands beside the caution: a rest when it is due, and pain at any time."""
    now = bay.now
    if now.visit is None or now.closed or now.pain:
        return ()
    rest = (Tap(act="rested", words="Rested", key="e"),) if bay.pace.rest_in == 0 else ()
    return (*rest, Tap(act="pain", words="Pain", key="p"))


def more_taps(bay: BayNow) -> tuple[Tap, ...]:
    """Return what is seldom wanted."""
    now, ball = bay.now, last_ball(bay.now)
    taps = [_again(now.repeatable)] if now.repeatable is not None else []
    if ball is not None:
        number = ball.number or "the last"
        of = {"ball_of": str(ball.sequence)}
        taps.append(Tap(act="odd", words=f"Ball {number} is odd", fields=of, key="d"))
        taps.append(Tap(act="no-mark", words=f"Ball {number} left no mark", fields=of, key="k"))
        shift = {"first": str(ball.sequence), "by": "1"}
        taps.append(
            Tap(act="shift-marks", words=f"Mark of {number} is the next ball's", fields=shift)
        )
    if now.visit is not None and not now.closed:
        taps.append(Tap(act="rested", words="Rested", key="e"))
        taps.append(Tap(act="another-day", words="Another day begins"))
        taps.append(Tap(act="close", words="Close the fitting"))
    taps.append(Tap(words="All balls", to=f"/fittings/{bay.fitting.id}/mends", key="l"))
    here = bay.fitting.id
    taps.append(Tap(words="Late? Plan again", to=f"/fittings/{here}/plan#late"))
    taps.append(Tap(words="Table, sheet, folder", to=f"/fittings/{here}/ways-in"))
    taps.append(Tap(words="Golfer's screen", to=f"/screen/{here}"))
    taps.append(Tap(words="Today", to="/"))
    return tuple(taps)
