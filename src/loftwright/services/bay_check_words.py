"""What the checks of bays say, in words of the bay."""

from collections.abc import Sequence
from typing import Final

from loftwright.constants import DEGREE
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.services.bay_check import CheckedBay, Due, checked_bays, found_offsets, read_house
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.shop.bay_check import BETWEEN, BayOffset
from loftwright.shop.random_effects import Range

QUANTITIES: Final = {
    "ball_speed": "Ball speed",
    "launch": "Launch",
    "spin": "Spin",
    "axis": "Spin axis",
    "direction": "Start line",
}

_MORE: Final = {
    "ball_speed": ("more ball speed", "less ball speed"),
    "launch": ("higher launch", "lower launch"),
    "spin": ("more spin", "less spin"),
    "axis": ("more tilt to the right", "more tilt to the left"),
    "direction": ("start to the right", "start to the left"),
}


def bays_sentence(
    offsets: Sequence[BayOffset], bays: Sequence[CheckedBay], show: Show
) -> tuple[str, str]:
    """Return what the checks say in a sentence, and what stands under it.

    Parameters
    ----------
    offsets : sequence of BayOffset
    bays : sequence of CheckedBay
    show : Show
    """
    off = _worst(offsets)
    due = due_words(bays)
    if off:
        rest = len(off) - 1
        more = f" {count(rest, 'other figure')} too: see below." if rest else ""
        return f"{offset_words(off[0], show)}; compare clubs within a bay.", f"{due}{more}"
    linked = {one.bay for one in offsets if one.linked}
    if len(linked) >= 2:
        return f"The bays read alike, as far as {_checks(offsets)} can tell.", due
    if len(bays) < 2:
        return "One bay needs no comparison with another.", due
    return "Nobody knows yet whether the bays read alike.", due


def offset_words(one: BayOffset, show: Show) -> str:
    """Return what a bay reads otherwise, as in "Bay 2 reads 180 rpm more spin than the others"."""
    more, less = _MORE[one.quantity]
    amount = amount_words(one.quantity, abs(one.offset.mean), show)
    low, high = sorted((abs(one.offset.low95), abs(one.offset.high95)))
    between = f"({plain(one.quantity, low, show)} to {plain(one.quantity, high, show)})"
    way = more if one.offset.mean > 0.0 else less
    whom = one.others[0] if len(one.others) == 1 else "the others"
    return f"{one.bay} reads {amount} {way} than {whom} {between}"


def due_words(bays: Sequence[CheckedBay]) -> str:
    """Return which bays wait for their check."""
    told = []
    for due, words in (
        (Due.RUNNING, "being checked"),
        (Due.NEVER, "never checked"),
        (Due.OVERDUE, "overdue"),
        (Due.DUE, "due this week"),
    ):
        mine = [one.bay for one in bays if one.due is due]
        if mine:
            told.append(f"{', '.join(mine)}: {words}")
    return f"{'; '.join(told)}." if told else "Every bay was checked this week."


def bay_line(studio: Studio, bay: str, device: str) -> str:
    """Return the quiet line of a fitting in a bay; empty where nothing is amiss.

    Parameters
    ----------
    studio : Studio
    bay : str
    device : str
        That reads today's balls.
    """
    settings = read_settings(studio).settings
    if len(settings.bays) < 2 or not read_house(studio).house.club:
        return ""
    mine = next((one for one in checked_bays(studio) if one.bay == bay), None)
    if mine is None or mine.days is None:
        return ""
    off = _worst([one for one in found_offsets(studio) if one.bay == bay])
    if off and device == mine.device:
        told = offset_words(off[0], show_of(settings))
        return f"{told}; compare only clubs that were hit in this bay."
    if mine.due is Due.OVERDUE:
        return f"{bay} was last checked {mine.days} days ago; ten balls of the check club are due."
    return ""


def amount_words(quantity: str, value: float, show: Show) -> str:
    """Return an amount of a quantity with its unit.

    Parameters
    ----------
    quantity : str
    value : float
        [m s^-1, rad, rad s^-1]
    show : Show
    """
    if quantity == "ball_speed":
        return show.speed(value)
    if quantity == "spin":
        return f"{show.turn_rate(value)} rpm"
    return show.angle(value)


def plain(quantity: str, value: float, show: Show) -> str:
    """Return an amount of a quantity without its unit; parameters as of `amount_words`.

    Parameters
    ----------
    quantity : str
    value : float
        [m s^-1, rad, rad s^-1]
    show : Show
    """
    if quantity == "ball_speed":
        return show.figure("speed", value)
    if quantity == "spin":
        return show.turn_rate(value)
    return show.number(value / DEGREE, 1)


def signed_words(quantity: str, value: float, show: Show) -> str:
    """Return a difference of a quantity with its sign and no unit.

    Parameters
    ----------
    quantity : str
    value : float
        [m s^-1, rad, rad s^-1]
    show : Show
    """
    text = plain(quantity, abs(value), show)
    if not any(sign in "123456789" for sign in text):
        return text
    return f"{'+' if value > 0.0 else '−'}{text}"


def range_words(quantity: str, one: Range, *, wide: bool, show: Show) -> str:
    """Return a range of a quantity as "+95 to +270".

    Parameters
    ----------
    quantity : str
    one : Range
        [m s^-1, rad, rad s^-1]
    wide : bool
        The one that holds 95 of 100 instead of 80.
    show : Show
    """
    low, high = (one.low95, one.high95) if wide else (one.low80, one.high80)
    return f"{signed_words(quantity, low, show)} to {signed_words(quantity, high, show)}"


def _worst(offsets: Sequence[BayOffset]) -> list[BayOffset]:
    """Return what is off, the farthest first by what matters of each quantity."""
    off = [one for one in offsets if one.off]
    return sorted(off, key=lambda one: -abs(one.offset.mean) / BETWEEN[one.quantity])


def _checks(offsets: Sequence[BayOffset]) -> str:
    by_bay = {one.bay: one.checks for one in offsets}
    return count(sum(by_bay.values()), "check")
