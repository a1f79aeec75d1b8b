"""What the final check's page says: where the club stands, its verdicts and its rounds."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.verdict import Fit
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
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.final_check import HELD, HeldRound, OpenPoints
from loftwright.web.final_fields import CLUB, LIMITED, Asked, hint_of, unit_of
from loftwright.workshop.final import MAY_BE_ABSENT, FinalNow, FinalState, HandCheck
from loftwright.workshop.final_mends import mends


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """A quantity of the form."""

    name: str
    words: str
    unit: str
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookView:
    """What is looked at, and whether a club may be without it."""

    name: str
    words: str
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
    footer: str = FOOTER


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """A check that is not kept: its verdicts, how many fields cannot be, or why it was refused."""

    checked: CheckedBuild | None = None
    points: OpenPoints | None = None
    faults: int = 0
    refused: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalFacts:
    """What the page is made of.

    Attributes
    ----------
    until : str
        When the bond is cured, on the shop's clock.
    targets : int
        How many the sheet has.
    off : str
        Why the order is off.
    broken : tuple of str
        Why the sheet cannot be read, and the mend.
    """

    final: FinalNow
    rounds: tuple[HeldRound, ...]
    departures: tuple[str, ...]
    until: str
    targets: int
    off: str
    broken: tuple[str, str]
    asking: Asking
    show: Show


def final_view(facts: FinalFacts) -> FinalView:
    """Return the page."""
    final, show, asking = facts.final, facts.show, facts.asking
    newest = facts.rounds[-1] if facts.rounds else None
    held = asking.checked or (newest.checked if newest and not asking.faults else None)
    points = asking.points or (newest.open_points if newest else None)
    state = final.state
    barred = state in HELD
    said, lead = (None if barred else _asked(asking, show)) or _standing(facts)
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
        club=tuple(_field(one, show, last) for one in CLUB),
        limited=tuple(_field(one, show, {}) for one in LIMITED),
        looks=tuple(
            LookView(name=one.value, words=HAND_WORDS[one], absent=one in MAY_BE_ABSENT)
            for one in HandCheck
        ),
        departures=facts.departures,
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


def long_day(day: date) -> str:
    """Return a day in words."""
    return f"{day:%-d %B %Y}"


def rework_text(checked: CheckedBuild, show: Show) -> str:
    """Return what is to be done again, from what is out."""
    return "\n".join(mend_line(one, show) for one in mends(checked))


def open_words(points: OpenPoints) -> str:
    """Return what stands between a club and its acceptance, in one line."""
    said = []
    if points.unread:
        said.append(f"not measured: {names_of(points.unread)}")
    if points.untold:
        said.append(f"not to be told: {names_of(points.untold)}")
    if points.failed:
        said.append(f"does not stand: {HAND_WORDS[points.failed[0]].lower()}")
        if len(points.failed) > 1:
            said[-1] += f" and {len(points.failed) - 1} more"
    return sentence("; ".join(said)) + "." if said else ""


def _asked(asking: Asking, show: Show) -> tuple[str, str] | None:
    if asking.refused:
        return f"Nothing was kept: {asking.refused}", "All that was typed stands below."
    if asking.faults:
        number = count(asking.faults, "field")
        return f"Nothing was kept: {number} to look at again.", "All that was typed stands below."
    if asking.checked is not None and asking.points is not None:
        near = [line.checked for line in asking.checked.targets if line.fit is Fit.CANNOT_TELL]
        untold = [one for one in near if one not in asking.points.untold]
        more = f"Cannot be told: {names_of(untold)}." if untold and asking.points.out else ""
        lead = " ".join(filter(None, ("Not kept yet.", open_words(asking.points), more)))
        return verdict_sentence(asking.checked, show), lead
    return None


def _standing(facts: FinalFacts) -> tuple[str, str]:
    """Return the sentence of where the job stands, and its objection."""
    final = facts.final
    if facts.broken[0]:
        return f"The build sheet cannot be read: {facts.broken[0]}.", facts.broken[1]
    if final.state is FinalState.NO_SHEET:
        return (
            "There is no build sheet yet to check a club against.",
            "Its targets and tolerances are what the finished club is held to.",
        )
    if final.state is FinalState.OFF:
        return "The order is off: no club is checked.", facts.off
    if final.state is FinalState.CURING and final.bond is not None:
        glue = f"{final.bond.adhesive}, batch {final.bond.batch or 'not written down'}"
        return (
            f"Nobody hits, waggles or twists this club before {facts.until}.",
            f"Its bond cures until then: {glue}.",
        )
    if final.state is FinalState.READY:
        return _ready(facts)
    return _ended(facts)


def _ready(facts: FinalFacts) -> tuple[str, str]:
    final = facts.final
    if final.changed:
        return (
            "Sheet, bond or parts changed after the last check: check the club again.",
            f"The last one, round {len(final.rounds)}, stands below.",
        )
    targets = count(facts.targets, "target")
    lead = "" if final.bond else "No bond is on record, so that no cure time is known here."
    return f"Measure the finished club: {targets}, then a second person looks.", lead


def _ended(facts: FinalFacts) -> tuple[str, str]:
    last = facts.rounds[-1]
    received, verdict = last.round.received, verdict_sentence(last.checked, facts.show)
    if facts.final.state is FinalState.REWORK:
        return f"Rework round {last.round.number}, then check the club again.", verdict
    what = OUTCOME_WORDS[received.outcome]
    day = "" if received.day is None else f" on {long_day(received.day)}"
    lead = received.reason or open_words(last.open_points)
    return f"{what}{day}. {verdict}", lead


def _missing(facts: FinalFacts) -> tuple[str, ...]:
    if facts.broken[0] or facts.final.state is FinalState.NO_SHEET:
        return ("build", "Go to the build sheet")
    if facts.final.state is FinalState.OFF:
        return ("order", "Go to the order")
    return ()


def _last_readings(newest: HeldRound | None, show: Show) -> dict[str, str]:
    if newest is None:
        return {}
    return {
        one.checked.value: with_unit(one.checked, one.reading.value, show)
        for one in newest.checked.targets
    }


def _field(asked: Asked, show: Show, last: Mapping[str, str]) -> FieldView:
    hint = hint_of(asked, show)
    if asked.name in last:
        hint = f"{hint} Last round: {last[asked.name]}.".strip()
    return FieldView(name=asked.name, words=asked.words, unit=unit_of(asked.kind, show), hint=hint)
