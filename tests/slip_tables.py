"""The study of the bench's slips as tables."""

from collections import Counter
from collections.abc import Mapping, Sequence
from math import sqrt

from bench_cover import Held, coverage, truth_of
from bench_readings import TRUTHS
from slipped_benches import KINDS, MOVED, Case

CLEAN = ("clean", "clean, swung")
HEADINGS = (
    "slip",
    "moved > 4 SD",
    "caught",
    "named first",
    "among those named",
    "refused, unit asked",
    "the rest",
    "of them caught",
    "EI off by at most",
)


def moved(cases: Sequence[Case]) -> list[Case]:
    """Return those whose slip moved a reading by more than four standard deviations."""
    return [one for one in cases if one.moved > MOVED]


def percent(hits: int, of: int) -> str:
    """Return a share in per cent with its Wilson range, nine in ten."""
    if of == 0:
        return "none"
    share, z = hits / of, 1.645
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z / (1 + z * z / of) * sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    low, high = max(middle - half, 0.0), min(middle + half, 1.0)
    return f"{100 * share:.1f} % ({100 * low:.0f} to {100 * high:.0f})"


def row_of(name: str, cases: Sequence[Case]) -> str:
    """Return a kind's row."""
    if name in CLEAN:
        alarms = sum(one.caught for one in cases)
        return f"| {KINDS[name].words} | {len(cases)} | {percent(alarms, len(cases))} |"
    far = moved(cases)
    rest = [one for one in cases if one.moved <= MOVED]
    cells = [
        KINDS[name].words,
        str(len(far)),
        percent(sum(one.caught for one in far), len(far)),
        percent(sum(one.first for one in far), len(far)),
        percent(sum(one.listed for one in far), len(far)),
        str(sum(one.refused for one in far)),
        str(len(rest)),
        str(sum(one.caught for one in rest)),
        f"{100 * max(one.change for one in rest):.0f} %" if rest else "",
    ]
    return f"| {' | '.join(cells)} |"


def instead_of(name: str, cases: Sequence[Case]) -> str:
    """Return what was named first where the slip was not."""
    others = Counter(one.instead or "nothing" for one in moved(cases) if not one.first)
    said = ", ".join(f"{words} {count}" for words, count in others.most_common())
    return f"| {KINDS[name].words} | {said or 'none'} |"


def table(headings: Sequence[str], rows: Sequence[str]) -> str:
    """Return a table of rows that are written already."""
    return "\n".join([f"| {' | '.join(headings)} |", f"|{' --- |' * len(headings)}", *rows])


def cover_rows(covered: Sequence[Held], first: int) -> list[str]:
    """Return how much of each shaft the ranges hold, and of all."""
    groups: dict[str, list[Held]] = {name: [] for name in TRUTHS}
    for seed, one in enumerate(covered, start=first):
        groups[truth_of(seed)].append(one)
    groups["all"] = list(covered)
    return [
        f"| {name} | {len(ones)} | {100.0 * coverage(ones):.1f} % |"
        for name, ones in groups.items()
    ]


def page(found: Mapping[str, Sequence[Case]], covered: Sequence[Held], first: int) -> str:
    """Return the whole page.

    Parameters
    ----------
    found : mapping of str to sequence of Case
        By kind of slip, all from the same benches.
    covered : sequence of Held
        Of the same benches without a slip.
    first : int
        Seed of the first bench.
    """
    count = len(covered)
    slips = {name: cases for name, cases in found.items() if name not in CLEAN}
    return PAGE.format(
        first=first,
        last=first + count - 1,
        count=count,
        slips=table(HEADINGS, [row_of(name, cases) for name, cases in slips.items()]),
        clean=table(
            ("table", "benches", "said to have a slip"),
            [row_of(name, found[name]) for name in CLEAN],
        ),
        covered=table(("shaft", "benches", "held by 95 % ranges"), cover_rows(covered, first)),
        instead=table(
            ("slip", "named first instead"),
            [instead_of(name, cases) for name, cases in slips.items()],
        ),
    )


PAGE = """# Slips on the bench

**Question.** One reading, or all from some row on, are wrong as people get them wrong. Is it
said, and is the slip named?

{count} simulated benches a row, seeds {first} to {last}: plain, wavy and stepped shafts in turn,
11 and 22 three-point readings over 300 mm, 20, 50 and 100 N, 1 % of noise and 1.25 % common to
all. `make slips` tries them again (`tests/slipped_benches.py`); thresholds were set on seeds from
10001. Status: *self-consistent*, the truths are invented.

A slip **moved** a reading if what stands in its row lies more than four standard deviations from
what would stand there without the slip: of the reading's own error and of what the other readings
leave open about it, together. **Caught**: the row, or most of the rows, is named. **Named
first**: and the slip is the first thing asked. **Among those named**: it is one of the first
three. A table whose figures no bench can read is refused at once with the row and "check the
unit"; that counts as named. Ranges are nine in ten, by chance alone.

{slips}

{clean}

## How much of a shaft its ranges hold

Of the same benches without a slip, over the places that were seen. The rough term of the beliefs
keeps stepped shafts in and makes ranges of smooth ones wider than they need be.

{covered}

## What was named instead

{instead}

One reading that is off by a tenth can be two digits, another span and a neighbour's station
alike: figures in the row cannot tell, so all that fit are listed, the likeliest first.

A **station left out or typed twice** moves each later reading by one step of the taper, 3 to 9 %,
and leaves a smooth shaft behind: a slightly steeper one, which may as well be true. In about half
of these benches the table becomes e⁴ times as probable with the slip undone, and two clean tables
of a hundred gain as much by chance; a lower bar asks about more of both. Only what stands outside
the deflections catches it for certain: with stations printed beforehand the last row stays empty,
and a row without its station or its deflection is refused by number.

**All rows over another span** look like another shaft of another stiffness, and nothing in the
table says otherwise, unless the shaft would lie far from what shafts are, as one read over 200 mm
and typed as 300 does; then lb for N explains it as well. Weight, balance point and one frequency
tell it.
"""
