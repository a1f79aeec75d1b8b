"""The truth study set down: one page of tables, rows that miss first, and two pictures."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import isfinite
from types import MappingProxyType
from typing import Final

from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.training.linear_scenarios import LINEAR_SCENARIOS, LinearScenario
from loftwright.training.scenarios import SCENARIOS, Scenario
from loftwright.training.tally import BINS, Tally, balls_for
from loftwright.training.truth_pictures import coverage_picture, regret_picture
from loftwright.training.truth_study import ABILITIES, BUDGETS

WITHIN: Final = 3.0
"""Points by which a range of a well-specified scenario may hold the truth too often or seldom."""
CHANCE_WITHIN: Final = 5.0
FEWEST_STATES: Final = 200
NOTHING_TO_COVER: Final = frozenset({"same axis", "same direction"})
"""From the same swing virtual clubs differ in loft alone where everything is measured, so axis
and direction differ by a hundredth of a degree: whatever is said of them holds the truth."""

Found = Mapping[str, Mapping[str, Tally]]

EVERY_SCENARIO: Final[Mapping[str, Scenario | LinearScenario]] = MappingProxyType(
    {**SCENARIOS, **LINEAR_SCENARIOS}
)


def lines_of(whole: Tally) -> list[str]:
    """Return the figures whose ranges a scenario tests: value, and each launch number."""
    names = [f"{line} {name}" for line in ("swung", "same") for name in LAUNCH_NAMES]
    return ["value", *(one for one in names if isfinite(whole.means[f"{one} 80"]))]


def misses(name: str, whole: Tally) -> list[str]:
    """Return where a well-specified scenario misses its bounds, in words."""
    scenario = EVERY_SCENARIO[name]
    found = []
    for line in lines_of(whole):
        for level in (80, 95):
            mean, error = whole.get(f"{line} {level}")
            if abs(mean - level) > WITHIN and not _untested(line, scenario):
                found.append(f"{line.replace('_', ' ')}: {mean:.1f} ± {error:.1f} in {level} %")
    for number, (count, said, right) in enumerate(whole.bins):
        if count >= FEWEST_STATES and abs(100.0 * (said - right)) > CHANCE_WITHIN:
            edges = f"{BINS[number]:.1f} to {BINS[number + 1]:.1f}"
            found.append(
                f"chance said {edges}: {100 * said:.0f} %, right {100 * right:.0f} % of {count}"
            )
    return found


def _untested(line: str, scenario: Scenario | LinearScenario) -> bool:
    if isinstance(scenario, LinearScenario):
        return False
    device = scenario.world.device
    return line in NOTHING_TO_COVER and device.delivery and all(device.columns)


def farthest(whole: Tally, scenario: Scenario | LinearScenario) -> float:
    """Return by how many points the worst range of a scenario is off."""
    tested = [one for one in lines_of(whole) if not _untested(one, scenario)]
    return max(abs(whole.means[f"{one} {level}"] - level) for one in tested for level in (80, 95))


HEADINGS: Final = (
    "| scenario | belief | value in 80 / 95 % | as swung, five numbers | same swing, five numbers "
    "| given up at 20 / 40 / 60: model | averages | trimmed | least squares | guided "
    "| declared at 60, wrong | stopped, median balls, gives up |\n" + "|---" * 12 + "|"
)


def row_of(name: str, scenario: Scenario | LinearScenario, found: Mapping[str, Tally]) -> str:
    """Return one scenario, all abilities together, as a row of the table."""
    whole = found["all"]
    wrong = 100.0 * whole.wrong / whole.declared if whole.declared else 0.0
    cells = [
        name,
        "as the world" if scenario.well_specified else "parts from it",
        _covered(whole, "value"),
        _five(whole, "swung"),
        _five(whole, "same"),
        *(
            _given_up(whole, method)
            for method in ("model", "averages", "trimmed averages", "least squares", "guided")
        ),
        f"{whole.means['declared']:.1f} %, {wrong:.0f} %",
        f"{whole.means['stopped']:.0f} %, {whole.means['stop']:.0f}, "
        f"{whole.means['stop regret']:.2f} yd",
    ]
    return "| " + " | ".join(cells) + " |"


def _covered(whole: Tally, line: str) -> str:
    (in_80, error_80), (in_95, error_95) = whole.get(f"{line} 80"), whole.get(f"{line} 95")
    return f"{in_80:.1f} ± {error_80:.1f} / {in_95:.1f} ± {error_95:.1f}"


def _five(whole: Tally, line: str) -> str:
    cells = []
    for name in LAUNCH_NAMES:
        in_80, in_95 = whole.means[f"{line} {name} 80"], whole.means[f"{line} {name} 95"]
        cells.append(f"{in_80:.0f}/{in_95:.0f}" if isfinite(in_80) else "–")
    return " ".join(cells)


def _given_up(whole: Tally, method: str) -> str:
    values = [whole.means[f"{method} {balls}"] for balls in (20, 40, 60)]
    return " / ".join(f"{one:.2f}" if isfinite(one) else "–" for one in values)


def page(
    found: Found,
    *,
    version: str,
    code: str,
    first: int,
    fittings: int,
    seconds: Mapping[str, float],
) -> tuple[str, dict[str, str]]:
    """Return the page in Markdown, and its pictures by file name.

    Parameters
    ----------
    found : mapping
        Tallies by scenario, then by ability and `all`.
    version, code : str
        Of the program that made them.
    first, fittings : int
        Number of the first golfer, and golfers an ability.
    seconds : mapping of str to float
        Processor time of one fitting, by scenario.
    """
    last = first + fittings - 1
    hours = sum(seconds[name] * found[name]["all"].fittings for name in found) / 3600.0
    parts = [
        _head(fittings, first, last, version, code, hours),
        "## Balls against averages",
        headline(found),
        _pictures(),
        "## Rows that miss",
        _missed(found),
        "## Every scenario",
        "Well-specified scenarios first, in each group the one that is farthest off first.",
        _table([name for name in found if name in SCENARIOS], found),
        "## The linear bay",
        LINEAR,
        _table([name for name in found if name in LINEAR_SCENARIOS], found),
        "## How sure it is of its leader",
        _chances(found),
        "## By ability",
        _by_ability(found),
        "## What it cost",
        "Processor time of one fitting with all its methods, on one core.",
        "\n".join(f"- {name}: {seconds[name]:.2f} s" for name in found),
    ]
    pictures = {
        "coverage.svg": coverage_picture({name: one["all"] for name, one in found.items()}),
        "given-up.svg": regret_picture(found["everything measured"]),
    }
    return "\n\n".join(parts) + "\n", pictures


def _head(fittings: int, first: int, last: int, version: str, code: str, hours: float) -> str:
    return f"""# Do the ranges mean what they say?

{len(ABILITIES) * fittings:,} simulated fittings a scenario: {fittings} golfers of each of five
abilities ({", ".join(ABILITIES)}; the senior swings 75 mph), numbers {first} to {last}, the same
golfers, clubs and balls for every method and scenario; loftwright {version}, code {code},
{hours:.1f} hours of one core. `make calibrate` makes this page, and
`python scripts/calibrate.py --row "heavy tails"` one row of it in about a minute.

Golfers swing, strike and fly by the impact and flight models; clubs act on the delivery. The
spreads of swings and clubs are judgements, so these tables show that the machinery is right where
its table is, and what happens where it is not. Nobody has yet measured it on real golfers: that
is what the shop's proof is for.

*Given up* is the expected score lost by the pick against the truly best club, in yards. Ranges are
right when 80 and 95 % of them hold the truth; they are pooled over pairs of clubs at 20, 40 and 60
balls, and standard errors are clustered by fitting. *Declared* are pairs said at 95 %.
*Guided* takes the next club from the model's own advice, in sets of three. Where belief and world
agree was written down before the run; there a range should be within {WITHIN:.0f} points of what
it says, and the chance said of a leader within {CHANCE_WITHIN:.0f} points in every bin of
{FEWEST_STATES} states or more. Where the delivery is measured, axis and direction *from the same
swing* are no test: virtual clubs differ there by a hundredth of a degree."""


def headline(found: Found) -> str:
    """Return how many balls the model needs for what 60 averaged balls give, by ability."""
    rows = [
        "| golfer | belief | averages give up at 60 balls | model at 20 / 30 / 40 / 60 | guided "
        "| model at 30 against 60 averaged | guided at 30 against 60 averaged "
        "| balls for as good a pick: model, guided |",
        "|---" * 8 + "|",
    ]
    for name in ("everything measured", "as it is read today", "ball data only"):
        if name not in found:
            continue
        for who in (*ABILITIES, "all"):
            one = found[name][who]
            target = one.means["averages 60"]
            model = [one.means[f"model {balls}"] for balls in BUDGETS]
            guided = [one.means[f"guided {balls}"] for balls in BUDGETS]
            rows.append(
                f"| {who} | {name} | {target:.2f} yd | {_many(model)} | {_many(guided)} "
                f"| {_gain(one, 'less than 60 at 30')} "
                f"| {_gain(one, 'guided less than 60 at 30')} "
                f"| {_balls(model, target)}, {_balls(guided, target)} |"
            )
    return "\n".join(rows) + (
        "\n\nA gain is positive where fewer balls by the model give up less than sixty averaged; "
        "beside it its standard error."
    )


def _many(values: Sequence[float]) -> str:
    return " / ".join(f"{one:.2f}" if isfinite(one) else "–" for one in values)


def _gain(one: Tally, name: str) -> str:
    mean, error = one.get(name)
    return f"{mean:+.2f} ± {error:.2f} yd" if isfinite(mean) else "–"


def _balls(given_up: Sequence[float], target: float) -> str:
    if not all(isfinite(one) for one in given_up):
        return "–"
    balls = balls_for(given_up, target)
    if balls <= BUDGETS[0]:
        return f"{BUDGETS[0]} or fewer"
    return f"{balls:.0f}" if isfinite(balls) else f"more than {BUDGETS[-1]}"


def _pictures() -> str:
    return (
        "![Share of ranges that hold the truth, by scenario](coverage.svg)\n\n"
        "![Yards given up after each number of balls, by method](given-up.svg)"
    )


def _missed(found: Found) -> str:
    lines = []
    for name, tallies in found.items():
        if EVERY_SCENARIO[name].well_specified:
            lines += [f"- **{name}**: {one}" for one in misses(name, tallies["all"])]
    return "\n".join(lines) if lines else "No well-specified scenario misses a bound."


LINEAR: Final = """Launch follows swing and strike by straight lines, clubs act on launch, and the
model starts from the constants that golfers and clubs are drawn from; clubs are ranked on *from
the same swing* on one hole without re-aiming. It shows whether the machinery is right where its
assumptions hold. Nothing here may be said of golfers."""


def _table(names: Sequence[str], found: Found) -> str:
    order = sorted(
        names,
        key=lambda name: (
            not EVERY_SCENARIO[name].well_specified,
            -farthest(found[name]["all"], EVERY_SCENARIO[name]),
        ),
    )
    rows = [row_of(name, EVERY_SCENARIO[name], found[name]) for name in order]
    return "\n".join([HEADINGS, *rows])


def _chances(found: Found) -> str:
    edges = [f"{low:.1f}–{high:.1f}" for low, high in pairwise(BINS)]
    rows = [
        "Of the states in which the chance said of the leader lay in a bin: the mean said, how "
        "often it was right, and how many states.",
        "",
        "| scenario | " + " | ".join(edges) + " |",
        "|---" * (len(edges) + 1) + "|",
    ]
    return "\n".join([*rows, *(chances_of(name, one["all"]) for name, one in found.items())])


def chances_of(name: str, whole: Tally) -> str:
    """Return how sure a scenario is of its leader, and how rightly, as a row of the table."""
    cells = [
        f"{100 * said:.0f} → {100 * right:.0f} ({count})" if count else "–"
        for count, said, right in whole.bins
    ]
    return f"| {name} | " + " | ".join(cells) + " |"


def _by_ability(found: Found) -> str:
    rows = [
        "| scenario | golfer | value in 80 / 95 % | best found at 20 / 40 / 60 "
        "| given up at 20 / 40 / 60: model | averages | guided | declared, wrong at 60 |",
        "|---" * 8 + "|",
    ]
    for name, tallies in found.items():
        if name not in SCENARIOS:
            continue
        for who in ABILITIES:
            one = tallies[who]
            wrong = 100.0 * one.wrong / one.declared if one.declared else 0.0
            best = " / ".join(f"{one.means[f'best {balls}']:.0f}" for balls in (20, 40, 60))
            rows.append(
                f"| {name} | {who} | {_covered(one, 'value')} | {best} % "
                f"| {_given_up(one, 'model')} | {_given_up(one, 'averages')} "
                f"| {_given_up(one, 'guided')} | {one.means['declared']:.1f} %, {wrong:.0f} % |"
            )
    return "\n".join(rows)
