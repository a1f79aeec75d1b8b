"""A decision for a terminal of 80 columns: the sentence, then what stands behind it."""

from typing import Final

from loftwright.domain.shot import ShotTable
from loftwright.evidence.advice import Call, advise
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Pair,
    RankedOn,
    State,
)
from loftwright.report.belief_words import rests_on
from loftwright.report.claim_words import told_claims
from loftwright.report.could_show import could_show, could_show_sentences
from loftwright.report.differences import explained_pair, not_measured, shown_parts, unread
from loftwright.report.layout import INDENT, WIDTH, facts, notes, paragraph, table
from loftwright.report.numbers import LIKELY_RANGE, count, listed, percent
from loftwright.report.records import refused_rows, row_counts
from loftwright.report.rules import graduations, rule_over, strip
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.wording import asks_for_balls, objection, reference, sentence

_NARROWEST_RULE: Final = 16
_LAST_NUMERAL: Final = 2
_MOST_ROWS: Final = 8
_STRAY: Final = 0.1
"""A row that counts for less may be a waggle, a practice swing or the next bay's ball."""


def decision_lines(decision: Decision, shots: ShotTable, show: Show = TRADE) -> list[str]:
    """Return a decision in words and small tables.

    Parameters
    ----------
    decision : Decision
    shots : ShotTable
        The balls it came from.
    show : Show
        The units and the decimal mark of every figure.

    Returns
    -------
    list of str
        The sentence first, as one item; no line is longer than a terminal unless a club's name is.
    """
    answer = "\n".join(paragraph(sentence(decision, show)))
    lines = [answer, *paragraph(objection(decision, show))]
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        lines += _device(decision, show)
    else:
        lines += _comparison(decision, show)
        lines += _behind(decision, show)
        lines += _why(decision, show)
    lines += _next(decision, show)
    lines += _claims(decision, show)
    could_not = could_show_sentences(could_show(decision, shots), show)
    lines += notes(could_not, "What it could not show:")
    lines += _odd(decision, show)
    lines += _rows(decision, shots)
    lines += _columns(shots)
    warnings = dict.fromkeys((*shots.warnings, *decision.warnings))
    return lines + notes([*warnings, *_nameless(decision)])


def _nameless(decision: Decision) -> list[str]:
    """Say how the golfer's own club is named, where there is a choice."""
    if decision.own is not None or len(decision.clubs) < 2:
        return []
    return [f"the golfer's own club is named with --own, as in --own {decision.clubs[0].club!r}"]


def _total(club: ClubResult) -> Estimate | None:
    return club.as_you_swing_it.total if club.as_you_swing_it else None


def _comparison(decision: Decision, show: Show) -> list[str]:
    against, unit = reference(decision), show.unit("distance").name
    heading = f"Total as you swing it against {against}, {unit}; nine chances in ten"
    totals = {club.club: _total(club) for club in decision.clubs}
    return _ranges(decision, totals, heading, show)


def _device(decision: Decision, show: Show) -> list[str]:
    against, unit = reference(decision), show.unit("distance").name
    carry = {club.club: club.device_carry for club in decision.clubs}
    heading = f"Carry as this device shows it against {against}, {unit}; nine chances in ten"
    lines = _ranges(decision, carry, heading, show)
    speed = show.unit("speed").name
    speeds = [
        (club.club, f"{show.apart('speed', estimate.mean)} {speed}", _speeds(estimate, show))
        for club in decision.clubs
        if not (club.club == decision.own and decision.against is Against.OWN)
        if (estimate := club.device_ball_speed) is not None
    ]
    if not speeds:
        return lines
    return [*lines, "", f"Ball speed against {against}", *table(("", "", "nine in ten"), speeds)]


def _speeds(estimate: Estimate, show: Show) -> str:
    low, high = estimate.interval(LIKELY_RANGE)
    return f"{show.apart('speed', low)} to {show.apart('speed', high)}"


def _ranges(
    decision: Decision, figures: dict[str, Estimate | None], heading: str, show: Show
) -> list[str]:
    known = [estimate for estimate in figures.values() if estimate is not None]
    if not known or len(decision.clubs) == 1:
        counts = [(club.club, count(club.balls, "ball")) for club in decision.clubs]
        return ["", *facts(counts)]
    rows = [
        (
            club.club,
            count(club.balls, "ball"),
            show.apart("distance", estimate.mean) if estimate else "",
            _range(decision, club, estimate, show),
        )
        for club in decision.clubs
        for estimate in (figures[club.club],)
    ]
    plain = table(("", "", "", ""), rows)[1:]
    taken = max(len(line) for line in plain) + 2
    rule = rule_over(known, max(_NARROWEST_RULE, WIDTH - taken - _LAST_NUMERAL), show)
    lines = ["", heading]
    for line, club in zip(plain, decision.clubs, strict=True):
        estimate = figures[club.club]
        drawn = strip(rule, estimate, own=club.club == decision.own) if estimate else ""
        lines.append(f"{line:<{taken}}{drawn}".rstrip())
    return lines + [f"{'':<{taken}}{line}".rstrip() for line in graduations(rule)]


def _range(decision: Decision, club: ClubResult, estimate: Estimate | None, show: Show) -> str:
    if estimate is None:
        return "too few balls" if club.balls else "not hit"
    if club.club == decision.own and estimate.sd == 0.0:
        return "the club to beat"
    return show.yards_range(*estimate.interval(LIKELY_RANGE))


def _behind(decision: Decision, show: Show) -> list[str]:
    levels = [club for club in decision.clubs if club.level is not None]
    if not levels:
        return []
    same = any(club.from_the_same_swing is not None for club in levels)
    ranked = any(club.p_best is not None for club in levels)
    headings = ["", "start", "curve", "carry + run", "in 14"]
    if ranked:
        headings.append("best")
    if same:
        headings.append("from the same swing")
    rows = []
    for club in levels:
        level = club.level
        if level is None:
            continue
        row = [
            club.club,
            show.side(level.start_offline),
            show.side(level.curve),
            " + ".join(show.carry_and_run(level.carry, level.total)),
            show.number(level.fairways_in_14, 1),
        ]
        if ranked:
            row.append("" if club.p_best is None else percent(club.p_best))
        rows.append([*row, _same_swing(decision, club, show)] if same else row)
    left = [0, len(headings) - 1] if same else [0]
    unit = show.unit("distance").name
    heading = f"{decision.home.name}: where they go, {unit}; fairways in 14"
    heading += "; chance to be best" * ranked
    return ["", heading, *table(headings, rows, left=left), *_leaning(decision)]


def _same_swing(decision: Decision, club: ClubResult, show: Show) -> str:
    figures = club.from_the_same_swing
    if figures is None or figures.total is None:
        return ""
    if club.club == decision.own and figures.total.sd == 0.0:
        return "0"
    spread = show.yards_range(*figures.total.interval(LIKELY_RANGE))
    return f"{show.apart('distance', figures.total.mean)} ({spread})"


def _leaning(decision: Decision) -> list[str]:
    """Say which figures rest on what clubs usually do as much as on these balls."""
    leaning = {
        club.club: rests_on(club.physics_share, decision.believed)
        for club in decision.clubs
        if club.value is not None and club.club != decision.own
    }
    words = set(leaning.values())
    if words <= {"mostly balls"}:
        return []
    if len(words) == 1:
        return paragraph(f"All of these are {words.pop()}: few balls say little.", INDENT)
    named = [f"{name} ({word})" for name, word in leaning.items() if word != "mostly balls"]
    return paragraph(f"Not on balls alone: {listed(named)}.", INDENT)


def _why(decision: Decision, show: Show) -> list[str]:
    pair = explained_pair(decision)
    if pair is None or pair.parts is None or pair.raw_total is None:
        return []
    heading = f"Why the plain averages of {pair.a} and {pair.b} differ"
    return ["", f"{heading}, {show.unit('distance').name}", *_parts(pair, show)]


def _parts(pair: Pair, show: Show) -> list[str]:
    shown = shown_parts(pair, show.unit("distance").scale)
    lines = facts([(name, f"{show.signed(value):>6}") for name, value in shown])
    absent = [] if pair.parts is None else not_measured(pair.parts)
    return lines + (paragraph(unread(absent), INDENT) if absent else [])


def _next(decision: Decision, show: Show) -> list[str]:
    lines = []
    if decision.next_club is not None:
        hand_over = "Hand over" if asks_for_balls(decision) else "If more balls are hit, hand over"
        words = f"{hand_over} {decision.next_club.club} next: {decision.next_club.why}"
        lines += paragraph(words if words.endswith(".") else f"{words}.", hanging=INDENT)
    if decision.regret is not None and decision.clubs:
        lines += paragraph(_standing(decision, show), hanging=INDENT)
    return ["", *lines] if lines else []


def _standing(decision: Decision, show: Show) -> str:
    """Return what choosing now may cost, and how far the balls carry."""
    leader, own = decision.clubs[0], decision.own
    regret = decision.regret or 0.0
    near = decision.p_leader_near_best
    unit = show.unit("distance")

    def worth(length: float) -> str:
        return f"{show.number(length / unit.scale, 1)} {unit.name}"

    how = {State.STRONG: "Strong evidence: ", State.GOOD_ENOUGH: "Good enough to stop: "}
    if leader.club != own and advise(decision).call is Call.KEEP_OWN:
        how = dict.fromkeys(how, "Enough to choose by, not to pay for: ")
    words = how.get(decision.state, "")
    if own is not None and decision.against is Against.OWN and leader.club != own:
        gain = 0.0 if leader.value is None else leader.value.mean
        words += f"keeping {own} may give up the worth of {worth(regret + gain)} "
        words += f"against the best of these clubs, taking {leader.club} {worth(regret)}."
    elif decision.state is State.STRONG and near is not None:
        words += (
            f"with {percent(near)} {leader.club} is the best or within {show.one_length} of it."
        )
    else:
        words += f"taking {leader.club} may give up the worth of {worth(regret)} "
        words += "against the best."
    return words[:1].upper() + words[1:]


def _claims(decision: Decision, show: Show) -> list[str]:
    claims = told_claims(decision.claims, show)
    may = [claim for claim in claims if claim.may]
    not_may = [claim for claim in claims if not claim.may]
    lines = notes((f"{claim.say}: {claim.why}" for claim in may), "What may be said:")
    return lines + notes((f"{claim.say}: {claim.why}" for claim in not_may), "What may not:")


def _odd(decision: Decision, show: Show) -> list[str]:
    lines = notes(
        (
            f"row {ball.row} counts as {show.number(ball.weight, 2)} of a ball: {ball.why}"
            for ball in decision.odd_balls
        ),
        "Odd balls:",
    )
    if any(ball.weight < _STRAY for ball in decision.odd_balls):
        lines += paragraph(
            "A row that is no ball of this golfer is set aside with --not-ours ROW.", INDENT
        )
    return lines


def _rows(decision: Decision, shots: ShotTable) -> list[str]:
    counts = row_counts(decision, shots)
    lines = [
        "",
        f"Rows: {counts['read']} read, {counts['used']} used, {counts['odd']} odd, "
        f"{counts['refused']} refused, {counts['duplicate']} duplicate",
    ]
    found = [f"row {row['row']}: {row['why']}" for row in refused_rows(shots)]
    found += [f"row {row.row}: the same as row {row.of}" for row in shots.duplicates]
    for text in found[:_MOST_ROWS]:
        lines += paragraph(text, INDENT, INDENT * 2)
    if len(found) > _MOST_ROWS:
        lines.append(f"{INDENT}and {len(found) - _MOST_ROWS} more; --json lists them all")
    return lines


def _columns(shots: ShotTable) -> list[str]:
    if not shots.columns:
        return []
    rows = [
        (
            column.column or "-",
            column.means,
            column.unit or "-",
            str(column.origin),
            column.source,
        )
        for column in shots.columns
    ]
    return ["", "Columns:", *table(("", "means", "unit", "origin", "by"), rows, left=range(5))]
