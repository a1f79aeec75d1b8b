"""The golfer's page as plain data for the template: words, pictures, what to do."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from loftwright.constants import DEGREE
from loftwright.domain.home import Home, Lie, Trouble
from loftwright.evidence.result import Against, ClubResult, Decision, Estimate, RankedOn, State
from loftwright.report.content import ReportContent
from loftwright.report.flight_picture import flight_side
from loftwright.report.golfer_words import (
    DISCLAIMER,
    balls_words,
    cautions,
    drawn_clubs,
    how_sure,
    next_steps,
    shape_known,
)
from loftwright.report.graduated import RangeRow
from loftwright.report.marks import Mark
from loftwright.report.numbers import LIKELY_RANGE, count
from loftwright.report.pictures import Drive, Strip, finish_strip
from loftwright.report.room import GolferRoom
from loftwright.report.runs import Run, marked, plain, shortened
from loftwright.report.runs import club as club_run
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import objection, reference, sentence

_KINDS = {
    Lie.FAIRWAY: "trouble",
    Lie.ROUGH: "deep rough",
    Lie.SAND: "sand",
    Lie.RECOVERY: "trees",
}
"""What stands for the trouble of a hole in words, by the lie that it gives."""


def golfer_page(
    content: ReportContent, marks: Mapping[str, Mark], room: GolferRoom
) -> dict[str, Any]:
    """Return what the golfer's page shows.

    Parameters
    ----------
    content : ReportContent
        The report.
    marks : mapping of str to Mark
        The fitting's clubs.
    room : Room
        How much it may hold.
    """
    decision, show = content.decision, content.show
    return {
        "top": _top(content),
        "sentence": marked(sentence(decision, show), marks),
        "air": room.air,
        "objection": marked(objection(decision, show), marks),
        "finish": _finish(decision, marks, room, show),
        "effects": _effects(decision, marks, room, show),
        "flight": _flight(decision, marks, show) if room.flight else None,
        "sure": how_sure(decision, marks, room.sure),
        "steps": next_steps(decision, marks),
        "cautions": cautions(decision),
        "foot": _foot(content),
    }


def _top(content: ReportContent) -> str:
    parts = [
        f"For {shortened(content.golfer, 48)}" if content.golfer else "",
        content.date_words.replace(" ", "\N{NO-BREAK SPACE}"),
        f"fitted by {shortened(content.fitter, 40)}" if content.fitter else "",
    ]
    return " · ".join(part for part in parts if part)


def _foot(content: ReportContent) -> str:
    decision = content.decision
    odd = len(decision.odd_balls)
    counted = f", {odd} of them counted for less" if odd else ""
    side = " You are left-handed: left and right are as you see them." * (content.hand == "left")
    return f"From {balls_words(decision)}, none deleted{counted}.{side} {DISCLAIMER}"


def _drives(decision: Decision, marks: Mapping[str, Mark], most: int) -> list[Drive]:
    return [
        Drive(
            club=club.club,
            label=shortened(club.club, most),
            mark=marks[club.club],
            level=club.level,
        )
        for club in drawn_clubs(decision)
        if club.level is not None
    ]


def _finish(
    decision: Decision, marks: Mapping[str, Mark], room: GolferRoom, show: Show
) -> dict[str, Any] | None:
    drives = _drives(decision, marks, 20)
    if not drives or decision.pattern is None or not shape_known(decision):
        return None
    strip = finish_strip(decision.home, drives, decision.pattern, height=room.strip, show=show)
    return {
        "heading": f"Where your drives finish {_at_home(decision)}",
        "svg": strip.svg,
        "alt": _finish_alt(drives, show),
        "note": _finish_note(decision, drives, strip, show),
    }


def _finish_alt(drives: list[Drive], show: Show) -> str:
    told = (f"{drive.club} finishes {_place(drive, show)}" for drive in reversed(drives))
    places = "; ".join(told)
    return (
        f"The hole from above, with the average drive of {count(len(drives), 'club')} and one "
        f"outline for two of three balls: {places}."
    )


def _place(drive: Drive, show: Show) -> str:
    offline = drive.level.offline
    total = f"at {show.yards(drive.level.total)}"
    if abs(offline) < 0.5 * show.unit("distance").scale:
        return f"{total} in the middle"
    side = "right" if offline > 0.0 else "left"
    return f"{total}, {show.yards(abs(offline))} {side} of the target"


def _at_home(decision: Decision) -> str:
    name = decision.home.name
    return "on a standard hole" if name == Home().name else f"at {shortened(name, 40)}"


def _finish_note(decision: Decision, drives: list[Drive], strip: Strip, show: Show) -> str:
    hole = strip.hole
    which = f"Hole {strip.number} of your list" if decision.home.holes[1:] else "One hole"
    trouble = ""
    if hole.trouble is not Trouble.NONE:
        sides = "both sides" if hole.trouble is Trouble.BOTH else f"the {hole.trouble}"
        trouble = f", {_KINDS[hole.trouble_lie]} on {sides} from {show.yards(hole.trouble_from)}"
    slid = "every club" if len(drives) < 2 else "both clubs"
    return (
        f"Total in {show.lengths}; width at {strip.scale} scale. {which}: fairway "
        f"{show.yards(hole.fairway)} wide{trouble}.{_aim(decision, drives, show)} The outline "
        f"holds two drives in three and is the same for {slid}: so few balls cannot show which is "
        "straighter."
    )


def _aim(decision: Decision, drives: list[Drive], show: Show) -> str:
    """Return how far to aim from where the golfer aimed, once home lets clubs be aimed."""
    if not decision.home.re_aim:
        return ""
    unit = show.unit("distance")
    shifts = [(drive.label, round(drive.level.aim / unit.scale)) for drive in reversed(drives)]
    told = [
        f"{label} {abs(shift)} {unit.name} {'right' if shift > 0 else 'left'}"
        for label, shift in shifts
        if shift
    ]
    aimed = " Drawn as you aimed in the bay"
    return f"{aimed}; to score best aim {' and '.join(told)} of that." if told else f"{aimed}."


def _effects(
    decision: Decision, marks: Mapping[str, Mark], room: GolferRoom, show: Show
) -> list[dict[str, Any]]:
    if decision.state is State.TOO_FEW:
        return []
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        kinds = [
            ("Carry as this device shows it", "device_carry", "distance"),
            ("Ball speed as this device shows it", "device_ball_speed", "speed"),
        ]
    else:
        kinds = [("Total as you swing it", "total", "distance")]
    return [
        found
        for heading, field, quantity in kinds
        if (found := _effect(decision, marks, room, (heading, field, quantity), show)) is not None
    ]


def _figure(club: ClubResult, field: str) -> Estimate | None:
    if field != "total":
        return club.device_carry if field == "device_carry" else club.device_ball_speed
    return club.as_you_swing_it.total if club.as_you_swing_it else None


def _effect(
    decision: Decision,
    marks: Mapping[str, Mark],
    room: GolferRoom,
    kind: tuple[str, str, str],
    show: Show,
) -> dict[str, Any] | None:
    from loftwright.report.chart_layers import chart_svg  # noqa: PLC0415 - altair is slow
    from loftwright.report.charts import RANGES_SIZE, ranges_chart  # noqa: PLC0415

    name, field, quantity = kind
    unit = show.unit(quantity)
    heading = f"{name}, {unit.name}"
    own_is_zero = decision.against is Against.OWN
    told = [
        (club, figure)
        for club in decision.clubs
        if not (own_is_zero and club.club == decision.own)
        and (figure := _figure(club, field)) is not None
    ]
    if not told:
        return None
    rows = [_row(club, figure, unit.scale) for club, figure in told[: room.clubs]]
    zero = reference(decision) if own_is_zero else "mean of all"
    chart = ranges_chart(
        rows,
        marks,
        zero=zero,
        zero_is_own=own_is_zero,
        size=replace(RANGES_SIZE, row=room.row),
        show=show,
    )
    left = len(told) - len(rows)
    note = "Band: half the chance. Line: nine chances in ten."
    if any(row.dashed for row in rows):
        note += " Dashed: too few balls."
    if left:
        note += f" {count(left, 'more club')} in the table overleaf."
    figures = "; ".join(
        f"{club.club} {_range(figure, quantity, show)}" for club, figure in told[: room.clubs]
    )
    against = f"against {reference(decision)}, nine chances in ten"
    return {
        "heading": heading,
        "svg": chart_svg(chart),
        "alt": f"{heading}, {against}: {figures}.",
        "note": note,
    }


def _range(estimate: Estimate, quantity: str, show: Show) -> str:
    low, high = estimate.interval(LIKELY_RANGE)
    if quantity == "distance":
        return show.yards_range(low, high)
    return f"{show.figure(quantity, low)} to {show.figure(quantity, high)}"


def _row(club: ClubResult, figure: Estimate, unit: float) -> RangeRow:
    half, most = figure.interval(0.5), figure.interval(0.9)
    return RangeRow(
        club=club.club,
        label=shortened(club.club, 15),
        mean=figure.mean / unit,
        half=(half[0] / unit, half[1] / unit),
        most=(most[0] / unit, most[1] / unit),
        dashed=club.balls < 2,
    )


def _flight(decision: Decision, marks: Mapping[str, Mark], show: Show) -> dict[str, Any] | None:
    drives = _drives(decision, marks, 20)
    if not drives:
        return None
    told = [
        (
            drive,
            show.height(drive.level.peak_height),
            show.number(drive.level.landing_angle / DEGREE),
        )
        for drive in reversed(drives)
    ]
    alt = "; ".join(f"{drive.club} {high} high, lands at {deg}°" for drive, high, deg in told)
    note: list[Run] = []
    for drive, high, deg in told:
        note += [club_run(drive.club, drive.label), plain(f" {high}, lands at {deg}°; ")]
    note[-1] = plain(note[-1]["text"].removesuffix("; ") + ".")
    return {
        "heading": "The flight from the side",
        "svg": flight_side(drives, decision.home, show=show),
        "alt": f"The average flights from the side, to scale: {alt}.",
        "note": note,
    }
