"""What the final check says first: where the club stands, or what an unkept check found."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.verdict import Fit
from loftwright.report.final_rounds import HAND_WORDS
from loftwright.report.final_words import OUTCOME_WORDS, names_of, sentence, verdict_sentence
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.services.final_check import HeldRound, OpenPoints
from loftwright.workshop.final import FinalNow, FinalState


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
    fields : mapping of str to str
        What the sheet says beside its figures.
    targets : tuple of Checked
        What the sheet has a target for.
    off : str
        Why the order is off.
    broken : tuple of str
        Why the sheet cannot be read, and the mend.
    """

    final: FinalNow
    rounds: tuple[HeldRound, ...]
    departures: tuple[str, ...]
    fields: Mapping[str, str]
    until: str
    targets: tuple[Checked, ...]
    off: str
    broken: tuple[str, str]
    asking: Asking
    show: Show


def long_day(day: date) -> str:
    """Return a day in words."""
    return f"{day:%-d %B %Y}"


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


def asked(asking: Asking, show: Show) -> tuple[str, str] | None:
    """Return the sentence of a check that is not kept, and its objection; None without one."""
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


def standing_words(facts: FinalFacts) -> tuple[str, str]:
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
    targets = count(len(facts.targets), "target")
    untold = final.bond is None and facts.fields.get("bond") != "none"
    lead = "No bond is on record, so that no cure time is known here." if untold else ""
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
