"""The fitter's page as plain data for the template: the table, the reasons, what is not said."""

from collections.abc import Mapping
from typing import Any

from loftwright.constants import YARD
from loftwright.domain.device import Origin
from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Decision, Pair, RankedOn, State
from loftwright.report.chart_layers import chart_svg
from loftwright.report.charts import parts_chart, rounded_parts
from loftwright.report.clubs_table import clubs_table
from loftwright.report.content import ReportContent
from loftwright.report.differences import not_measured, unread
from loftwright.report.home_words import home_lines
from loftwright.report.marks import Mark
from loftwright.report.numbers import count, fixed, listed, percent, signed
from loftwright.report.records import refused_rows, row_counts
from loftwright.report.room import FitterRoom, Reasons
from loftwright.report.runs import Run, marked, plain, shortened
from loftwright.report.runs import club as club_run
from loftwright.report.wording import asks_for_balls

METHOD = (
    "Five launch numbers of every ball are modelled together; total and offline follow from "
    "them through the air, wind and turf at home.",
    "What each club does is held back towards what clubs usually do, until its balls say more.",
    "Odd balls count at their weight; none is deleted. All clubs share one scatter.",
    "Clubs are ranked as you swing them; from the same swing is the club alone.",
    "A range holds the figure nine times in ten; half the chance lies in the band.",
)
"""The method in five lines."""

DEVICE_METHOD = (
    "Carry and ball speed are compared as this device shows them; nothing is flown again.",
    "What each club does is held back towards no difference, until its balls say more.",
    "Odd balls count at their weight; none is deleted. All clubs share one scatter.",
    "Clubs are ranked on carry; what the strike or the swing did to it cannot be taken out.",
    "A range holds the figure nine times in ten; half the chance lies in the band.",
)
"""The method where a device gives no more than speed and carry."""

_NO_QUANTITIES = frozenset(
    ("ball", "time", "club", "golfer", "mark set", "read", "feel", "note", "ignore")
)


def fitter_page(
    content: ReportContent,
    marks: Mapping[str, Mark],
    room: FitterRoom,
    why: Mapping[str, Any] | None,
) -> dict[str, Any]:
    """Return what the fitter's page shows.

    Parameters
    ----------
    content : ReportContent
        The report.
    marks : mapping of str to Mark
        The fitting's clubs.
    room : Room
        How much it may hold.
    """
    decision, table = content.decision, content.table
    pair = told_pair(decision)
    warnings = list(dict.fromkeys((*table.warnings, *decision.warnings)))
    return {
        "air": room.air,
        "small": room.small,
        "row": room.row,
        "gap": room.gap,
        "sentence": marked(fitter_sentence(decision, pair), marks),
        "table": clubs_table(decision),
        "why": why,
        "rows": _rows(decision, table),
        "odd": _shortened(_odd(decision), room.listed, "odd ball"),
        "refused": _shortened(_refused(table), room.listed, "row"),
        "may": _claims(decision, room, may=True),
        "may-not": _claims(decision, room, may=False),
        "warnings": _shortened([_sentence(text) for text in warnings], room.listed, "warning"),
        "method": list(DEVICE_METHOD if _device(decision) else METHOD),
        "home": [
            *(() if _device(decision) else home_lines(decision.home)),
            *(_sentence(text) for text in content.conditions),
        ],
        "columns": _columns(table),
        "next": _next(decision, marks),
        "version": f"Computed by loftwright {content.version}".strip(),
    }


def _device(decision: Decision) -> bool:
    return decision.ranked_on is RankedOn.DEVICE_CARRY


def told_pair(decision: Decision) -> Pair | None:
    """Return the pair whose difference is told part by part.

    The one whose plain averages contradict the ranking most; else the leader and the own club;
    else the leader and the next.
    """
    if not decision.clubs:
        return None
    leader = decision.clubs[0].club
    pairs = [
        pair
        for pair in decision.pairs
        if pair.a == leader and pair.parts is not None and pair.raw_total is not None
    ]
    against = [pair for pair in pairs if (pair.raw_total or 0.0) < -0.5 * YARD]
    if against:
        return min(against, key=lambda pair: pair.raw_total or 0.0)
    own = [pair for pair in pairs if pair.b == decision.own]
    return next(iter([*own, *pairs]), None)


def fitter_sentence(decision: Decision, pair: Pair | None) -> str:
    """Return the sentence of the fitter's page: why the averages say what they say."""
    if pair is not None and pair.parts is not None and pair.raw_total is not None:
        shown = dict(rounded_parts(pair.parts))
        worth = f"{_whose(decision, pair)} is worth {_worth(shown['Club'])}."
        raw = round(pair.raw_total / YARD, 1)
        if raw < 0.0:
            return f"Plain averages put {pair.a} {fixed(-raw, 1)} yd behind {pair.b}; {worth}"
        return f"Plain averages put {pair.a} {fixed(raw, 1)} yd ahead of {pair.b}; {worth}"
    if decision.state is State.TOO_FEW:
        return "Two clubs with two balls each are the least that can be compared."
    if _device(decision):
        return "This device shows how far, not why: launch and spin were not both there to read."
    return "These balls say which club goes further, not why: no delivery or strike was read."


def _whose(decision: Decision, pair: Pair) -> str:
    """Return what the club's part of a difference is: the club alone only where that exists."""
    alone = {club.club for club in decision.clubs if club.from_the_same_swing is not None}
    return "the club itself" if {pair.a, pair.b} <= alone else "the club as you swing it"


def _worth(yards: float) -> str:
    if not yards:
        return "the same"
    return f"{fixed(abs(yards), 1)} yd {'more' if yards > 0.0 else 'less'}"


def why_chart(pair: Pair | None) -> dict[str, Any] | None:
    """Return the stepped bar of a pair with its words; it is the same in any room."""
    if pair is None or pair.parts is None:
        return None
    shown = rounded_parts(pair.parts)
    told = ", ".join(f"{name.lower()} {signed(value)}" for name, value in shown)
    total = round(pair.parts.sum() / YARD, 1)
    absent = not_measured(pair.parts)
    a, b = shortened(pair.a, 12), shortened(pair.b, 12)
    return {
        "heading": [
            plain("Why "),
            club_run(pair.a, shortened(pair.a, 24)),
            plain(" and "),
            club_run(pair.b, shortened(pair.b, 24)),
            plain(" differ on average"),
        ],
        "svg": chart_svg(parts_chart(pair.parts, a=a, b=b)),
        "alt": (
            f"Average total of {pair.a} minus {pair.b} in yards, part by part: {told}; "
            f"together {signed(total)}."
        ),
        "note": "Yards of total. Each bar starts where the last ended; the parts sum exactly."
        + (f" {unread(absent)}" if absent else ""),
    }


def _rows(decision: Decision, table: ShotTable) -> str:
    counts = row_counts(decision, table)
    return (
        f"{counts['read']} rows: {counts['used']} used, {counts['odd']} odd, "
        f"{counts['refused']} refused, {counts['duplicate']} duplicate."
    )


def _odd(decision: Decision) -> list[str]:
    return [
        f"Row {odd.row}, counted at {percent(odd.weight)}: {odd.why}."
        for odd in decision.odd_balls
    ]


def _refused(table: ShotTable) -> list[str]:
    lines = [f"Row {row['row']}: {row['why']}." for row in refused_rows(table)]
    lines += [f"Row {row.row} repeats row {row.of} and counts once." for row in table.duplicates]
    return lines


def _sentence(text: str) -> str:
    text = text.strip()
    return f"{text[:1].upper()}{text[1:]}" + ("" if text.endswith((".", "?", "!")) else ".")


def _shortened(lines: list[str], most: int, noun: str) -> list[str]:
    if len(lines) <= most:
        return lines
    left = len(lines) - most + 1
    return [*lines[: most - 1], f"And {count(left, f'more {noun}')}, listed by read --json."]


def _claims(decision: Decision, room: FitterRoom, *, may: bool) -> list[dict[str, str]]:
    told = room.reasons is Reasons.ALL or (room.reasons is Reasons.MAY_NOT and not may)
    return [
        {"say": _sentence(claim.say), "why": _sentence(claim.why) if told else ""}
        for claim in decision.claims
        if claim.may is may
    ]


def _columns(table: ShotTable) -> list[dict[str, str]]:
    words = (
        (Origin.MEASURED, "Measured"),
        (Origin.CALCULATED, "Calculated by the device"),
        (Origin.UNKNOWN, "Origin unknown"),
        (Origin.ABSENT, "Not there"),
    )
    found = []
    for origin, heading in words:
        names = [
            column.means.replace("_", " ")
            for column in table.columns
            if column.origin is origin and column.means.replace("_", " ") not in _NO_QUANTITIES
        ]
        if names:
            found.append({"heading": heading, "text": f"{listed(names)}."})
    ignored = [column.column for column in table.columns if column.means == "ignore"]
    if ignored:
        found.append({"heading": "Not used", "text": f"{listed(ignored)}."})
    return found


def _next(decision: Decision, marks: Mapping[str, Mark]) -> list[Run]:
    if decision.next_club is None:
        return [plain("No further ball is asked for.")]
    name, why = decision.next_club.club, _sentence(decision.next_club.why)
    told = why if name in why else f"{name}. {why}"
    return marked(told if asks_for_balls(decision) else f"If more balls are hit: {told}", marks)
