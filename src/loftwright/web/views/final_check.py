"""What the final check's page says: where the club stands, its verdicts and its rounds."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.constants import INCH
from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.limits import LOCAL_LENGTH
from loftwright.report.build_words import FOOTER, not_measured_words
from loftwright.report.final_picture import final_picture
from loftwright.report.final_rounds import (
    HAND_WORDS,
    changed_line,
    departure_line,
    mend_line,
)
from loftwright.report.final_words import (
    GOLFER_TOLD,
    OUTCOME_WORDS,
    VerdictRow,
    contradiction_lines,
    limit_line,
    minded,
    names_of,
    sentence,
    verdict_rows,
    verdict_sentence,
    with_unit,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.final_check import HELD, HeldRound, OpenPoints
from loftwright.web.final_fields import CLUB, LIMITED, Asked, hint_of, unit_of
from loftwright.web.views.final_says import Asking, FinalFacts, asked, long_day, standing_words
from loftwright.workshop.final import MAY_BE_ABSENT, FinalState, HandCheck
from loftwright.workshop.final_mends import mends

_OF_SHEET: Final = {
    HandCheck.PARTS: ("head", "shaft", "grip", "sleeve"),
    HandCheck.SERIALS: ("head_serial", "shaft_serial"),
    HandCheck.ORIENTATION: ("orientation", "logo", "grip_orientation"),
    HandCheck.INDEX: ("setting",),
    HandCheck.SCREW: ("torque", "torque_source", "torque_tool"),
    HandCheck.FERRULE: ("ferrule",),
    HandCheck.RATTLE: ("counterweight_fix", "head_weight_fix"),
}
"""Fields of a build sheet that a look is held against."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """A quantity of the form."""

    name: str
    words: str
    unit: str
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookView:
    """What is looked at, what the sheet says of it, and whether a club may be without it."""

    name: str
    words: str
    hint: str
    absent: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictsView:
    """A check's verdicts.

    Attributes
    ----------
    unread : str
        Targets that were not measured, in words.
    mends : tuple of str
        What the readings that are out ask for.
    limits : tuple of str
    edition : str
    """

    rows: tuple[VerdictRow, ...]
    contradictions: tuple[str, ...]
    picture: str
    unread: str
    low_hand: str
    mends: tuple[str, ...]
    limits: tuple[str, ...]
    edition: str
    not_measured: tuple[str, ...]
    minded: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundView:
    """One receipt among the others."""

    number: int
    title: str
    outcome: str
    verdict: str
    rework: str
    reason: str
    failed: tuple[str, ...]
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalView:
    """The page.

    Attributes
    ----------
    lead : str
        What a careful fitter would object.
    missing : tuple of str
        Step and words of where to go first; empty where nothing is missing.
    checkable, folded : bool
        Whether the form stands, and whether it is folded away.
    """

    state: FinalState
    sentence: str
    lead: str
    missing: tuple[str, ...]
    checkable: bool
    folded: bool
    verdicts: VerdictsView | None
    rounds: tuple[RoundView, ...]
    club: tuple[FieldView, ...]
    limited: tuple[FieldView, ...]
    looks: tuple[LookView, ...]
    departures: tuple[str, ...]
    told: tuple[str, ...]
    local_limit: str
    targets: str
    footer: str = FOOTER


def final_view(facts: FinalFacts) -> FinalView:
    """Return the page."""
    final, show, asking = facts.final, facts.show, facts.asking
    newest = facts.rounds[-1] if facts.rounds else None
    held = asking.checked or (newest.checked if newest and not asking.faults else None)
    points = asking.points or (newest.open_points if newest else None)
    state = final.state
    barred = state in HELD
    said, lead = (None if barred else asked(asking, show)) or standing_words(facts)
    ended = state in {FinalState.ACCEPTED, FinalState.REJECTED}
    last = _last_readings(newest, show)
    return FinalView(
        state=state,
        sentence=said,
        lead=lead,
        missing=_missing(facts),
        checkable=(not barred or asking != Asking()) and not facts.broken[0],
        folded=ended and asking == Asking(),
        verdicts=None if held is None or points is None else verdicts_view(held, points, show),
        rounds=tuple(round_view(one, show) for one in reversed(facts.rounds)),
        club=tuple(_field(one, show, last, facts) for one in CLUB),
        limited=tuple(_field(one, show, {}, facts) for one in LIMITED),
        looks=tuple(
            LookView(
                name=one.value,
                words=HAND_WORDS[one],
                hint=_on_sheet(one, facts),
                absent=one in MAY_BE_ABSENT,
            )
            for one in HandCheck
        ),
        departures=facts.departures,
        local_limit=show.length(LOCAL_LENGTH),
        targets=names_of(facts.targets),
        told=GOLFER_TOLD if state is FinalState.ACCEPTED else (),
    )


def verdicts_view(checked: CheckedBuild, points: OpenPoints, show: Show) -> VerdictsView:
    """Return a check's verdicts."""
    low = checked.measured.grip_low
    return VerdictsView(
        rows=verdict_rows(checked, show),
        picture=for_screen(final_picture(checked, show)) if checked.targets else "",
        contradictions=tuple(contradiction_lines(checked, show)),
        unread=names_of(points.unread),
        low_hand="" if low is None else with_unit(Checked.GRIP, low.value, show),
        mends=tuple(mend_line(one, show) for one in mends(checked)),
        limits=tuple(limit_line(one, checked, show) for one in checked.limits),
        edition=checked.rules.edition,
        not_measured=tuple(f"{sentence(one)}." for one in not_measured_words(checked)),
        minded=tuple(minded(checked, show)),
    )


def round_view(one: HeldRound, show: Show) -> RoundView:
    """Return one receipt and what changed since the one before."""
    received, base = one.round.received, one.round
    changes = [changed_line(two.checked, two.before, two.after, show) for two in one.reread]
    changes += [f"Now stands: {HAND_WORDS[look].lower()}." for look in one.put_right]
    if base.number > 1:
        changes += ["The sheet was issued anew."] if base.issued else []
        changes += ["It was bonded anew."] if base.bonded else []
    changes += [f"Built otherwise: {departure_line(two, show)}" for two in base.departures]
    day = "" if received.day is None else f", {long_day(received.day)}"
    alone = ", who also built it" if received.alone else ""
    return RoundView(
        number=base.number,
        title=f"Round {base.number}{day}, {received.second}{alone}",
        outcome=OUTCOME_WORDS[received.outcome],
        verdict=verdict_sentence(one.checked, show),
        rework=received.rework,
        reason=received.reason,
        failed=tuple(HAND_WORDS[look] for look in one.open_points.failed),
        changes=tuple(changes),
    )


def rework_text(checked: CheckedBuild, show: Show) -> str:
    """Return what is to be done again, from what is out."""
    return "\n".join(mend_line(one, show) for one in mends(checked))


def _missing(facts: FinalFacts) -> tuple[str, ...]:
    if facts.broken[0] or facts.final.state is FinalState.NO_SHEET:
        return ("build", "Go to the build sheet")
    if facts.final.state is FinalState.OFF:
        return ("order", "Go to the order")
    return ()


def _low_hand(facts: FinalFacts) -> str:
    """Return the size that the sheet wants under the lower hand, which no build file has."""
    try:
        inches = float(facts.fields.get("grip_lower_inch", ""))
    except ValueError:
        return ""
    return f"Sheet: {with_unit(Checked.GRIP, inches * INCH, facts.show)}."


def _on_sheet(look: HandCheck, facts: FinalFacts) -> str:
    """Return what the sheet says of what is looked at."""
    if look is HandCheck.CURED and facts.until:
        return f"Not before {facts.until}."
    told = [facts.fields.get(name, "") for name in _OF_SHEET.get(look, ())]
    said = "; ".join(one for one in told if one)
    return f"Sheet: {said}." if said else ""


def _last_readings(newest: HeldRound | None, show: Show) -> dict[str, str]:
    if newest is None:
        return {}
    return {
        one.checked.value: with_unit(one.checked, one.reading.value, show)
        for one in newest.checked.targets
    }


def _field(asked: Asked, show: Show, last: Mapping[str, str], facts: FinalFacts) -> FieldView:
    hint = hint_of(asked, show)
    if asked.name == "grip_low":
        hint = f"{hint} {_low_hand(facts)}".strip()
    if asked.name in last:
        hint = f"{hint} Last round: {last[asked.name]}.".strip()
    return FieldView(name=asked.name, words=asked.words, unit=unit_of(asked.kind, show), hint=hint)
