"""A club that is wanted, in plain words: for the golfer, the workshop and an outside builder."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.constants import DEGREE
from loftwright.domain.golfer import Hand, Identity
from loftwright.domain.order import ClubSpec, Kept, PriceLine
from loftwright.domain.tolerances import Tolerances
from loftwright.report.not_hit_words import HALF, made_words
from loftwright.report.screen_numbers import Show

FEW_BALLS_KNOWN: Final = (
    "The golfer knows that fewer than five balls were hit with just this club."
)
NO_BREAK: Final = "\N{NO-BREAK SPACE}"

_KEPT: Final = {
    Kept.NOTHING: "A new club",
    Kept.HEAD: "The golfer’s own head with a new shaft",
    Kept.SHAFT: "A new head on the golfer’s own shaft",
    Kept.CLUB: "The golfer’s own club, changed",
}
_UNTOUCHED: Final = "no shaft goes into this club, so it does not matter here."
_SHORTEST_NAME: Final = 2
_TIP: Final = re.compile(r"\btip", re.IGNORECASE)
_SWINGWEIGHT: Final = re.compile(r"swing ?weight", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderText:
    """What a workshop or an outside builder is told; initials, no name, no price.

    Attributes
    ----------
    shop, initials, to : str
    day : date
        On which it was agreed.
    promised : date
    spec : ClubSpec
    lines : tuple of PriceLine
        Only what they are for and how many is told.
    note : str
        Without the golfer's name.
    cannot : tuple of str
        What the builder cannot do.
    tolerances : Tolerances
    """

    shop: str
    initials: str
    to: str
    day: date
    promised: date
    spec: ClubSpec
    lines: tuple[PriceLine, ...]
    note: str
    cannot: tuple[str, ...]
    tolerances: Tolerances


def day_words(day: date) -> str:
    """Return a day as it is said: 9 December 2026."""
    return f"{day:%-d %B %Y}".replace(" ", NO_BREAK)


def spec_rows(spec: ClubSpec, show: Show) -> tuple[tuple[str, str], ...]:
    """Return a club part by part: what it is called, and what is wanted.

    Parameters
    ----------
    spec : ClubSpec
    show : Show
    """
    hand = "left-handed" if spec.hand is Hand.LEFT else "right-handed"
    angles = f"{show.angle(spec.loft)} loft, {show.angle(spec.lie)} lie, {_face(spec.face, show)}"
    tested = f"{made_words(spec.label, show)} of this fitting"
    rows = [
        ("Wanted", f"{_KEPT[spec.kept]}, {hand}"),
        ("As", tested if spec.hit else f"{tested}, not hit"),
        ("Head", f"{spec.head}: {angles}, before the sleeve"),
        ("Sleeve", spec.setting if spec.settings else "none: glued hosel"),
        ("Shaft", spec.shaft),
        ("Grip", spec.grip or "not said"),
        ("Length", show.length(spec.length)),
    ]
    return tuple(rows)


def promise_rows(spec: ClubSpec, show: Show) -> tuple[tuple[str, str], ...]:
    """Return what the club was said to do when it was chosen; nothing where nothing was."""
    told = spec.promise
    if told is None:
        return ()
    at = f"At {told.home}" if told.home else "At home"
    carried, run = show.carry_and_run(told.carry, told.total)
    unit = show.unit("distance").name
    rows = [
        (at, f"carry {carried} {unit} + run {run} {unit}"),
        (
            "Off the face",
            f"{show.speed(told.ball_speed)}, launch {show.angle(told.launch)}, "
            f"spin {show.spin(told.spin)}",
        ),
    ]
    if told.fairways_in_14 is not None:
        rows.append(("Fairways in 14", show.number(told.fairways_in_14, 1)))
    if told.value is not None:
        low, high = told.value.low, told.value.high
        worth = f"{show.yards_apart(told.value.mean)} ({show.yards_range(low, high)})"
        rows.append(("Worth against Own", f"{worth}, nine chances in ten"))
    return tuple(rows)


def cannot_lines(
    spec: ClubSpec, cannot: Sequence[str], tolerances: Tolerances, show: Show
) -> tuple[str, ...]:
    """Return what a builder cannot do, each with what that means for this club.

    Parameters
    ----------
    spec : ClubSpec
    cannot : sequence of str
        In the shop's own words.
    tolerances : Tolerances
        What the finished club is held to.
    show : Show
    """
    return tuple(f"{one}: {_means(spec, one, tolerances, show)}" for one in cannot)


def order_text(order: OrderText, show: Show) -> str:
    """Return an order in plain words, as it is copied into a message or a file."""
    heading = f"Order from {order.shop}" if order.shop else "Order"
    parts = [
        f"{heading}, {day_words(order.day)}",
        f"To: {order.to}",
        f"For: {order.initials}",
        f"Ready by: {day_words(order.promised)}",
        "",
        *(f"{name}: {words}" for name, words in spec_rows(order.spec, show)),
        "",
        "What goes with it:",
        *(f"- {one.count} x {one.what}" for one in order.lines),
    ]
    if order.spec.kept is not Kept.NOTHING:
        parts += ["", "The golfer’s own club comes with this order."]
    if order.note:
        parts += ["", f"Note: {order.note}"]
    flags = cannot_lines(order.spec, order.cannot, order.tolerances, show)
    if flags:
        parts += ["", "You said that you cannot do this; what it means here:"]
        parts += [f"- {one}" for one in flags]
    parts += ["", "Please ask before anything is made otherwise than it stands here."]
    return "\n".join(parts).replace(NO_BREAK, " ") + "\n"


def without_name(text: str, identity: Identity) -> str:
    """Return a text in which the golfer's name, or a part of it, stands as initials."""
    whole = rf"(?<!\w){re.escape(identity.name.strip())}(?!\w)"
    text = re.sub(whole, identity.initials, text, flags=re.IGNORECASE)
    for word in identity.name.split():
        if len(word) > _SHORTEST_NAME and word[0].isupper():
            text = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", f"{word[0]}.", text)
    return text


def _means(spec: ClubSpec, what: str, tolerances: Tolerances, show: Show) -> str:
    own = spec.kept.own_shaft
    if _TIP.search(what):
        if own:
            return _UNTOUCHED
        return (
            "this shaft is wanted as it was tested. If the tested one is trimmed at the tip, one "
            "without that trim is another shaft: we send it trimmed, or build the club ourselves."
        )
    if _SWINGWEIGHT.search(what):
        if own and HALF not in spec.label:
            return "only the sleeve is turned, so it does not matter here."
        points = show.number(tolerances.swingweight, 1)
        return (
            f"the club may come out more than {points} points off what was hit. Weigh head, shaft "
            "and grip before they are glued and tell us, or we balance it ourselves."
        )
    return "look whether this club needs it, and say so before it is begun."


def _face(face: float, show: Show) -> str:
    if abs(face) < 0.05 * DEGREE:
        return "face square"
    return f"face {show.angle(abs(face))} {'open' if face > 0.0 else 'closed'}"
