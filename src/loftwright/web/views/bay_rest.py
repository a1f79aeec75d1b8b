"""Feel, order of play, conditions and doubts of a fitting's bay."""

from dataclasses import dataclass
from typing import Final

from loftwright.bay.confounders import CONDITIONS, confounders, range_balls
from loftwright.bay.now import Swing
from loftwright.domain.names import OWN
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.claims import FURTHER
from loftwright.evidence.result import RankedOn
from loftwright.report.feel_line import FeelMark, feel_line, feel_words, place_words
from loftwright.report.marks import deal_marks
from loftwright.report.order_strip import Kind, OrderBall, order_strip, order_words
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_now import BayNow
from loftwright.services.settings import show_of
from loftwright.web.views.bay_taps import Tap, first_name, hand_tap

MOST_SLOTS: Final = 40
CYCLES: Final = {
    "ball": ("premium, new", "range ball"),
    "tee": ("low", "middle", "high"),
    "surface": ("mat", "turf"),
    "place": ("indoors", "outdoors"),
    "treatment": ("none", "spray", "tape", "label"),
}
"""What a tap on a condition says next, after the values that this fitting used."""

LABELS: Final = {
    "ball": "Ball",
    "tee": "Tee",
    "surface": "From",
    "place": "Place",
    "treatment": "Face",
}
LATE: Final = "one ball late"
"""In the words of an alarm about marks that came a ball too late."""

_NOT_SAID: Final = "Nothing is said of launch, loft, spin or sides."


@dataclass(frozen=True, slots=True, kw_only=True)
class FeelView:
    """The feel of the club in hand.

    Attributes
    ----------
    club : str
        Empty while no club is in hand.
    percent : int, optional
        Its place on the line; None before it was said.
    """

    club: str
    percent: int | None
    said: str
    svg: str
    words: str
    veto: Tap | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderView:
    """The order of play."""

    svg: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """One condition and the tap that changes it."""

    name: str
    label: str
    value: str
    tap: Tap


@dataclass(frozen=True, slots=True, kw_only=True)
class StripView:
    """Who hits, and from what.

    Attributes
    ----------
    virtual : bool
        Whether a virtual golfer can be let hit: in invented fittings only.
    """

    turn: Tap | None
    conditions: tuple[Condition, ...]
    virtual: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A doubt with its mends."""

    say: str
    taps: tuple[Tap, ...] = ()


def feel_view(bay: BayNow) -> FeelView:
    """Return the feel line, the club in hand last."""
    now = bay.now
    shapes = deal_marks([club.name for club in now.clubs], OWN)
    clubs = sorted(now.clubs, key=lambda club: club.name == now.in_hand)
    feels = [
        FeelMark(club=one.name, shape=shapes[one.name], place=one.feel, word=one.word)
        for one in clubs
        if one.feel is not None
    ]
    club = now.club(now.in_hand or "")
    veto = None
    if club is not None and not club.out:
        veto = Tap(act="veto", words="Would not play it", fields={"club": club.name}, key="v")
    felt = None if club is None else club.feel
    said = "not said yet" if felt is None else place_words(felt)
    if club is not None and club.word:
        said += f", “{club.word}”"
    return FeelView(
        club="" if club is None else club.name,
        percent=None if felt is None else round(100.0 * felt),
        said=said,
        svg=for_screen(feel_line(feels, prefix="feel")),
        words=feel_words(feels),
        veto=veto,
    )


def order_view(bay: BayNow) -> OrderView:
    """Return the balls of this visit in their order, and those that are left."""
    now = bay.now
    here = len(now.visits) - 1
    shapes = deal_marks([club.name for club in now.clubs], OWN)
    decision = bay.evidence.decision
    odd = {one.row for one in decision.odd_balls} if decision else set()
    balls = [
        OrderBall(
            club=one.club or "",
            shape=shapes.get(one.club or ""),
            number=one.number,
            kind=_kind(one.not_ours, read=one.numbers is not None, warm_up=one.warm_up),
            odd=one.odd or (one.number in odd and one.number > 0),
            rested=now.rested > 0 and one.order == now.rested,
        )
        for one in now.swings
        if one.visit == here
    ]
    left = min(bay.pace.balls_left or 0, MOST_SLOTS - 1)
    shown = balls[-(MOST_SLOTS - left) :]
    return OrderView(
        svg=for_screen(order_strip(shown, left=left, prefix="order")),
        words=order_words(balls, left=bay.pace.balls_left or 0),
    )


def _kind(not_ours: bool, *, read: bool, warm_up: bool) -> Kind:
    if not_ours:
        return Kind.NOT_OURS
    if warm_up:
        return Kind.WARM_UP
    return Kind.READ if read else Kind.NOT_READ


def strip_view(bay: BayNow) -> StripView:
    """Return who hits, and every condition with the tap that changes it."""
    turn = None
    if bay.fitting.partner is not None:
        other = bay.turn != bay.fitting.id
        turn = Tap(
            act="turn",
            words=f"{first_name(bay.name if other else bay.partner)} hits",
            fields={"to": bay.fitting.id if other else bay.fitting.partner},
            key="t",
        )
    conditions = tuple(_condition(bay, name) for name in CONDITIONS)
    ready = bay.now.in_hand is not None and not (bay.now.closed or bay.now.pain)
    return StripView(turn=turn, conditions=conditions, virtual=bay.fitting.invented and ready)


def _condition(bay: BayNow, name: str) -> Condition:
    value = getattr(bay.now.strip, name)
    following = after(value, _known(bay, name))
    return Condition(
        name=name,
        label=LABELS[name],
        value=value or "not said",
        tap=Tap(act="strip", words=following, fields={name: following}),
    )


def _known(bay: BayNow, name: str) -> tuple[str, ...]:
    """Return the values to go through: those of this fitting, then the usual ones."""
    used = [getattr(one.strip, name) for one in bay.now.swings]
    told = [value for value in dict.fromkeys([*used, getattr(bay.now.strip, name)]) if value]
    return tuple(dict.fromkeys([*told, *CYCLES[name]]))


def after(value: str, known: tuple[str, ...]) -> str:
    """Return the value that follows one in a round of them."""
    if value not in known:
        return known[0]
    return known[(known.index(value) + 1) % len(known)]


def doubts(bay: BayNow) -> tuple[Doubt, ...]:
    """Return every doubt, those with a mend first."""
    show = show_of(bay.settings)
    found = [alarm_doubt(bay, alarm) for alarm in bay.evidence.alarms]
    found += [Doubt(say=one.say) for one in confounders(bay.now)]
    if range_balls(bay.now):
        found.append(Doubt(say=f"Range balls: differences yes, {show.lengths} no."))
    decision = bay.evidence.decision
    if decision is not None and decision.ranked_on is RankedOn.DEVICE_CARRY:
        further = next(one.why for one in decision.claims if one.say == FURTHER)
        found.append(Doubt(say=f"{further[:1].upper()}{further[1:]}. {_NOT_SAID}"))
    if bay.house:
        found.append(Doubt(say=bay.house))
    return tuple(found)


def alarm_doubt(bay: BayNow, alarm: Alarm) -> Doubt:
    """Return what an alarm says, with the mends of one tap that it proposes."""
    said = show_of(bay.settings).words(alarm.say)
    say = f"{said[:1].upper()}{said[1:]}"
    numbered = {one.number: one for one in bay.now.balls}
    rows = [row for row in alarm.rows if row in numbered]
    if not rows:
        return Doubt(say=say)
    first = str(numbered[rows[0]].sequence)
    if alarm.kind == "shifted_marks" and LATE in alarm.say:
        words = f"A ball before {rows[0]} was not read"
        return Doubt(
            say=say, taps=(Tap(act="dropped-before", words=words, fields={"first": first}),)
        )
    if alarm.kind == "shifted_marks":
        words = f"Marks from {rows[0]} are the next ball's"
        fields = {"first": first, "by": "1"}
        return Doubt(say=say, taps=(Tap(act="shift-marks", words=words, fields=fields),))
    if alarm.kind == "mirrored_marks":
        return Doubt(say=say, taps=_mirror_taps([numbered[row] for row in rows]))
    run = f"/fittings/{bay.fitting.id}/mends?first={rows[0]}&last={rows[-1]}"
    mend = Tap(words="Mend this run", to=run)
    if alarm.kind == "still_this_club" and bay.now.in_hand:
        return Doubt(say=say, taps=(hand_tap(bay.now.in_hand, kind="", still=True), mend))
    return Doubt(say=say, taps=(mend,) if alarm.kind == "strange_run" else ())


def _mirror_taps(balls: list[Swing]) -> tuple[Tap, ...]:
    """Return the tap that mirrors marks; none where a device saw the strikes and nobody tapped."""
    marked = [one for one in balls if one.mark is not None]
    if not marked:
        return ()
    first, last = marked[0], marked[-1]
    words = f"Turn marks {first.number} to {last.number}: toe for heel"
    fields = {"first": str(first.sequence), "last": str(last.sequence)}
    return (Tap(act="mirror-marks", words=words, fields=fields),)
