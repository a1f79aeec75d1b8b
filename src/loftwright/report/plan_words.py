"""A plan in words and in keys: the sets, what can be seen, what is given up, what to mind."""

from math import floor

from loftwright.constants import YARD
from loftwright.evidence.plan import MINUTE, Plan
from loftwright.evidence.power import difference_seen
from loftwright.report.layout import facts, notes, paragraph, table
from loftwright.report.numbers import count, fixed, listed
from loftwright.report.records import Record, rounded
from loftwright.report.screen_numbers import TRADE

SWINGS_A_VISIT = 60
"""Full swings after which a visit ends; a judgement, no published safe number was found."""


def plan_record(plan: Plan, seed: int, golfer: str) -> Record:
    """Return a plan with the keys of `loftwright plan`."""
    request = plan.request
    return {
        "clubs": list(plan.clubs),
        "sets": [
            {
                "set": planned.number,
                "club": planned.club,
                "balls": planned.balls,
                "start_minute": rounded(planned.start, MINUTE),
            }
            for planned in plan.sets
        ],
        "balls": plan.balls,
        "minutes": rounded(plan.duration, MINUTE),
        "difference_yd": rounded(request.difference, YARD),
        "balls_needed_per_club": plan.needed_per_club,
        "seen": [
            {
                "balls_per_club": seen.balls_per_club,
                "difference_yd": rounded(seen.total, YARD),
                "offline_yd": rounded(seen.offline, YARD),
            }
            for seen in plan.seen
        ],
        "given_up": given_up(plan),
        "seed": seed,
        "golfer": golfer,
        "scatter_yd": {
            "total": rounded(request.scatter.total, YARD),
            "offline": rounded(request.scatter.offline, YARD),
        },
        "blind": request.blind,
        "warnings": plan_warnings(plan, golfer),
    }


def plan_lines(plan: Plan, seed: int, golfer: str) -> list[str]:
    """Return a plan in words: the answer, the sets, what to mind."""
    answer = "\n".join(paragraph(_answer(plan)))
    lines = [answer, *paragraph(_objection(plan)), ""]
    lines += table(
        ("set", "minute", "club", "balls"),
        [
            (
                str(planned.number),
                str(floor(planned.start / MINUTE)),
                planned.club,
                str(planned.balls),
            )
            for planned in plan.sets
        ],
        left=(2,),
    )
    before = plan.request.pace.before() / MINUTE
    closing = plan.request.pace.closing / MINUTE
    lines += [
        "",
        *facts(
            [
                ("Before ball 1", f"{fixed(before)} min of talk, warm-up and own club measured"),
                ("After the last", f"{fixed(closing)} min to say what came out"),
                ("Shuffle", f"seed {seed}"),
            ]
        ),
    ]
    if plan.request.blind:
        key = [f"club {index} is {name}" for index, name in enumerate(plan.clubs[1:], start=1)]
        lines += notes([f"{listed(key)}. Keep it from the golfer until the end."], "Blind:")
    lines += ["", "What two clubs show, in yards:"]
    lines += table(
        ("balls with each", "total", "to the side"),
        [
            (str(seen.balls_per_club), fixed(seen.total / YARD), fixed(seen.offline / YARD))
            for seen in plan.seen
        ],
        left=(),
    )
    lines += notes(given_up(plan), "Given up:")
    return lines + notes(plan_warnings(plan, golfer))


def given_up(plan: Plan) -> list[str]:
    """Return what the minutes do not leave room for, in words."""
    request = plan.request
    clubs, balls = len(plan.clubs), plan.balls
    if (clubs, balls) == (request.clubs, request.balls):
        return []
    lost = []
    if clubs < request.clubs:
        lost.append(f"{clubs} clubs, not {request.clubs}")
    if balls < request.balls:
        lost.append(f"{balls} balls, not {request.balls}")
    per_club = balls // clubs
    open_total = difference_seen(per_club, request.scatter.total)
    open_side = difference_seen(per_club, request.scatter.offline)
    lost.append(
        f"differences below {TRADE.yards(open_total)} of total and {TRADE.yards(open_side)} to "
        "the side stay open"
    )
    return lost


def plan_warnings(plan: Plan, golfer: str) -> list[str]:
    """Return what to mind before the first ball, in sentences."""
    request = plan.request
    per_club = plan.balls // len(plan.clubs)
    warnings = []
    if per_club < plan.needed_per_club:
        warnings.append(
            f"{TRADE.yards(request.difference)} between two clubs takes some "
            f"{plan.needed_per_club} balls with each. Try length, loft, head "
            "and weight before shafts: they do more."
        )
    warnings.append(_swings(plan.balls))
    warnings += [
        "Ask about pain before the first swing. Pain, dizziness or a drop in speed ends the test.",
        "The warm-up of 10 minutes is not shortened, however late it is (Gosheger et al. 2003).",
        f"The spread of one ball, {TRADE.yards(request.scatter.total)} of total for a {golfer} "
        "golfer, is that of simulated golfers and a judgement, not a measurement.",
    ]
    if request.blind:
        warnings.append("Blind hides names only: a golfer still sees, hears and feels the club.")
    return warnings


def _swings(balls: int) -> str:
    basis = "a judgement, as no safe number is published"
    if balls > SWINGS_A_VISIT:
        return (
            f"{balls} balls are more than {SWINGS_A_VISIT} full swings a visit ({basis}): make "
            "it two visits."
        )
    return (
        f"Every full swing counts, warm-up and unread balls too: {SWINGS_A_VISIT} a visit "
        f"({basis}) leave {SWINGS_A_VISIT - balls} beside these {balls}."
    )


def _answer(plan: Plan) -> str:
    clubs, minutes = len(plan.clubs), fixed(plan.duration / MINUTE)
    what = f"{count(clubs, 'club')}, {plan.balls} balls, {minutes} minutes"
    per_club = plan.balls // clubs
    if per_club >= plan.needed_per_club:
        return f"{what}: enough to see {TRADE.yards(plan.request.difference)} between two clubs."
    seen = difference_seen(per_club, plan.request.scatter.total)
    return f"{what}: {TRADE.yards(seen)} between two clubs would show, less may not."


def _objection(plan: Plan) -> str:
    lost = given_up(plan)
    if lost:
        return f"The minutes leave {listed(lost[:-1])}." if len(lost) > 1 else lost[0]
    return "Which club is straighter it will not show: that takes some 160 balls with each."
