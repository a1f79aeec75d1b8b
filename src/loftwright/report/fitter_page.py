"""The fitter's page as plain data for the template: the table, the reasons, what is not said."""

from collections.abc import Mapping
from typing import Any

from loftwright.constants import YARD
from loftwright.domain.device import Origin
from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Decision, Pair, RankedOn, State
from loftwright.report.belief_words import before_words
from loftwright.report.claim_words import told_claims
from loftwright.report.clubs_table import clubs_table
from loftwright.report.content import ReportContent
from loftwright.report.differences import not_measured, rounded_parts, unread
from loftwright.report.home_words import home_lines
from loftwright.report.marks import Mark
from loftwright.report.numbers import count, listed, percent
from loftwright.report.records import refused_rows, row_counts
from loftwright.report.room import FitterRoom, Reasons
from loftwright.report.runs import Run, marked, plain, shortened
from loftwright.report.runs import club as club_run
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.wording import asks_for_balls, by_count

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
    decision, table, show = content.decision, content.table, content.show
    pair = told_pair(decision)
    warnings = [
        _sentence(by_count(text, content.counts))
        for text in dict.fromkeys((*table.warnings, *decision.warnings))
    ]
    return {
        "air": room.air,
        "small": room.small,
        "row": room.row,
        "gap": room.gap,
        "sentence": marked(fitter_sentence(decision, pair, show), marks),
        "table": clubs_table(decision, show),
        "why": why,
        "counts": content.counts,
        "rows": _rows(content),
        "odd": _shortened(_odd(content), room.listed, "odd ball", content),
        "refused": _shortened(_refused(content), room.listed, content.counts, content),
        "may": _claims(content, room, may=True),
        "may-not": _claims(content, room, may=False),
        "warnings": _shortened(warnings, room.listed, "warning", content),
        "method": [
            *(DEVICE_METHOD if _device(decision) else METHOD),
            before_words(decision.believed),
        ],
        "home": [
            *(() if _device(decision) else home_lines(decision.home, show)),
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


def fitter_sentence(decision: Decision, pair: Pair | None, show: Show = TRADE) -> str:
    """Return the sentence of the fitter's page: why the averages say what they say."""
    if pair is not None and pair.parts is not None and pair.raw_total is not None:
        unit = show.unit("distance")
        shown = dict(rounded_parts(pair.parts, unit.scale))
        worth = f"{_whose(decision, pair)} is worth {_worth(shown['Club'], show)}."
        raw = round(pair.raw_total / unit.scale, 1)
        apart = f"{show.number(abs(raw), 1)} {unit.name} {'behind' if raw < 0.0 else 'ahead of'}"
        return f"Plain averages put {pair.a} {apart} {pair.b}; {worth}"
    if decision.state is State.TOO_FEW:
        return "Two clubs with two balls each are the least that can be compared."
    if _device(decision):
        return "This device shows how far, not why: launch and spin were not both there to read."
    return "These balls say which club goes further, not why: no delivery or strike was read."


def _whose(decision: Decision, pair: Pair) -> str:
    """Return what the club's part of a difference is: the club alone only where that exists."""
    alone = {club.club for club in decision.clubs if club.from_the_same_swing is not None}
    return "the club itself" if {pair.a, pair.b} <= alone else "the club as you swing it"


def _worth(value: float, show: Show) -> str:
    if not value:
        return "the same"
    unit = show.unit("distance").name
    return f"{show.number(abs(value), 1)} {unit} {'more' if value > 0.0 else 'less'}"


def why_chart(pair: Pair | None, show: Show = TRADE) -> dict[str, Any] | None:
    """Return the stepped bar of a pair with its words; it is the same in any room."""
    from loftwright.report.chart_layers import chart_svg  # noqa: PLC0415 - altair is slow
    from loftwright.report.charts import parts_chart  # noqa: PLC0415

    if pair is None or pair.parts is None:
        return None
    unit = show.unit("distance")
    shown = rounded_parts(pair.parts, unit.scale)
    told = ", ".join(f"{name.lower()} {show.signed(value)} {unit.name}" for name, value in shown)
    total = round(pair.parts.sum() / unit.scale, 1)
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
        "svg": chart_svg(parts_chart(pair.parts, a=a, b=b, show=show)),
        "alt": (
            f"Average total of {pair.a} minus {pair.b}, part by part: {told}; "
            f"together {show.signed(total)} {unit.name}."
        ),
        "note": f"{show.lengths.capitalize()} of total. Each bar starts where the last ended; the "
        "parts sum exactly." + (f" {unread(absent)}" if absent else ""),
    }


def _rows(content: ReportContent) -> str:
    counts = row_counts(content.decision, content.table)
    if content.counts == "ball":
        number = count(content.table.read, "ball")
        return (
            f"{number}: {counts['used']} used, {counts['odd']} odd, "
            f"{counts['refused']} not compared."
        )
    return (
        f"{counts['read']} rows: {counts['used']} used, {counts['odd']} odd, "
        f"{counts['refused']} refused, {counts['duplicate']} duplicate."
    )


def _odd(content: ReportContent) -> list[str]:
    return [
        f"{content.counts.capitalize()} {odd.row}, counted at {percent(odd.weight)}: {odd.why}."
        for odd in content.decision.odd_balls
    ]


def _refused(content: ReportContent) -> list[str]:
    table, row = content.table, content.counts.capitalize()
    lines = [f"{row} {one['row']}: {one['why']}." for one in refused_rows(table)]
    return lines + [
        f"{row} {one.row} repeats {content.counts} {one.of} and counts once."
        for one in table.duplicates
    ]


def _sentence(text: str) -> str:
    text = text.strip()
    return f"{text[:1].upper()}{text[1:]}" + ("" if text.endswith((".", "?", "!")) else ".")


def _shortened(lines: list[str], most: int, noun: str, content: ReportContent) -> list[str]:
    if len(lines) <= most:
        return lines
    left = len(lines) - most + 1
    return [*lines[: most - 1], f"And {count(left, f'more {noun}')}, listed {content.listed}."]


def _claims(content: ReportContent, room: FitterRoom, *, may: bool) -> list[dict[str, str]]:
    told = room.reasons is Reasons.ALL or (room.reasons is Reasons.MAY_NOT and not may)
    return [
        {"say": _sentence(claim.say), "why": _sentence(claim.why) if told else ""}
        for claim in told_claims(content.decision.claims, content.show)
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
