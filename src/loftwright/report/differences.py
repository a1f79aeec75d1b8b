"""Why two plain averages differ: which two are worth explaining, and the parts as shown."""

from typing import Final

from loftwright.constants import YARD
from loftwright.evidence.result import Decision, Pair, Parts

_PART_NAMES: Final = {
    "odd_balls": "odd balls",
    "strike": "strike",
    "swing": "swing",
    "warm_up": "warm-up",
    "club": "club",
    "left_over": "left over",
}
_PART_WORDS: Final = {
    "odd_balls": "odd balls make",
    "strike": "the strike makes",
    "swing": "the swing makes",
    "warm_up": "warm-up makes",
    "club": "the club makes",
    "left_over": "chance makes",
}


def explained_pair(decision: Decision) -> Pair | None:
    """Return the two clubs whose plain averages need explaining most.

    Those that the plain averages put the other way round than the ranking, else the first two.
    """
    pair, _ = plainly_ahead(decision)
    if pair is None:
        names = [club.club for club in decision.clubs[:2]]
        pair = next((pair for pair in decision.pairs if [pair.a, pair.b] == names), None)
    return pair


def not_measured(parts: Parts) -> list[str]:
    """Return which of strike and swing no column shows: what they made is in the other parts.

    A part without a column is nothing to the last digit, which a measured one never is.
    """
    return [name for name in ("strike", "swing") if getattr(parts, name) == 0.0]


def unread(absent: list[str]) -> str:
    """Return the sentence on parts that were not measured."""
    verb = "was" if len(absent) == 1 else "were"
    names = " and ".join(absent).capitalize()
    return f"{names} {verb} not measured: what came of it is in club and left over."


def parts_note(parts: Parts, days: int) -> str:
    """Return what a reader of the parts must know: what else stands in which of them."""
    absent = not_measured(parts)
    said = [unread(absent)] if absent else []
    if days > 1:
        said.append("Warm-up holds what differs between the days, too.")
    return " ".join(said)


def shown_parts(pair: Pair, unit: float = YARD) -> list[tuple[str, float]]:
    """Return the parts of a difference as shown, to one decimal, and their sum.

    The figures shown add up as shown: what rounding takes goes to what is left over. A part that
    was not measured is not among them.

    Parameters
    ----------
    pair : Pair
    unit : float
        Size of the unit that they are shown in [m].
    """
    if pair.parts is None or pair.raw_total is None:
        return []
    whole = round(pair.raw_total / unit, 1)
    absent = not_measured(pair.parts)
    shown = {
        name: round(getattr(pair.parts, name) / unit, 1)
        for name in _PART_NAMES
        if name not in absent
    }
    rest = whole - sum(value for name, value in shown.items() if name != "left_over")
    shown["left_over"] = round(rest, 1)
    return [
        *((_PART_NAMES[name], value) for name, value in shown.items()),
        (f"{pair.a} less {pair.b}", whole),
    ]


def rounded_parts(parts: Parts, unit: float = YARD) -> tuple[tuple[str, float], ...]:
    """Return the parts to one decimal so that they add up as printed.

    What rounding leaves goes to the last part, the left over. A part that was not measured is
    left out.

    Parameters
    ----------
    parts : Parts
        Of one difference.
    unit : float
        Size of the unit that they are shown in [m].
    """
    total = round(parts.sum() / unit, 1)
    absent = not_measured(parts)
    shown = [
        (name.capitalize(), round(getattr(parts, field) / unit, 1))
        for field, name in _PART_NAMES.items()
        if field not in {*absent, "left_over"}
    ]
    rest = round(total - sum(value for _, value in shown), 1)
    return (*shown, (_PART_NAMES["left_over"].capitalize(), rest))


def largest_part(parts: Parts, direction: float, *, listed: bool = True) -> str | None:
    """Return in words the part that makes at least half of a difference of this sign.

    Balls make a part of it by their weights before any is odd enough to be listed as such.
    """
    sizes = {name: getattr(parts, name) * direction for name in _PART_WORDS}
    name = max(sizes, key=lambda part: sizes[part])
    half = 0.5 * parts.sum() * direction
    if sizes[name] <= 0.0 or sizes[name] < half:
        return None
    return _PART_WORDS[name] if listed or name != "odd_balls" else "unusual balls make"


def plainly_ahead(decision: Decision) -> tuple[Pair | None, float]:
    """Return the pair whose second club the plain averages put furthest above the leader."""
    leader = decision.clubs[0].club
    beaten = [
        pair
        for pair in decision.pairs
        if pair.a == leader and pair.raw_total is not None and pair.raw_total < -0.5 * YARD
    ]
    if not beaten:
        return None, 0.0
    pair = min(beaten, key=lambda pair: pair.raw_total or 0.0)
    return pair, -(pair.raw_total or 0.0)
