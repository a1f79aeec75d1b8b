"""The study of choices set down: how often ranges hold, and what the chances said come to."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Final

import numpy as np

from loftwright.training.summary import Mean, mean_of

HIT: Final = "hit"
BINS: Final = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
_SAID, _TRUTH, _IN_80, _IN_95, _BETTER = 1, 3, 4, 5, 6

Record = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bin:
    """Chances said within two edges, and how often they came true.

    Attributes
    ----------
    count : int
    said, right : float
    error : float
        Standard error of `right` less `said`, clustered by fitting.
    """

    count: int
    said: float
    right: float
    error: float


def kinds_of(records: Sequence[Record]) -> tuple[str, ...]:
    """Return the kinds of difference in fittings: those hit first, then what is built."""
    built = dict.fromkeys(
        row[0] for one in records for told in one["told"] for row in told["built"]
    )
    return (HIT, *built)


def held(records: Sequence[Record], kind: str, *, probability: int) -> Mean:
    """Return how often ranges held the truth.

    Parameters
    ----------
    records : sequence of dict
        One a fitting.
    kind : str
        Of difference.
    probability : int
        80 or 95.
    """
    column = _IN_80 if probability == 80 else _IN_95
    group = HIT if kind == HIT else "built"
    return mean_of(
        [
            float(
                np.mean(
                    [
                        100.0 * row[column]
                        for told in one["told"]
                        for row in told[group]
                        if row[0] == kind
                    ]
                )
            )
            for one in records
        ]
    )


def of_better_ways(records: Sequence[Record], kind: str) -> tuple[Mean, Mean, Mean]:
    """Return what is said of the better way of two alone.

    Parameters
    ----------
    records : sequence of dict
    kind : str
        Of difference.

    Returns
    -------
    tuple of Mean
        How often ranges of 80 and of 95 in 100 held, and by how many yards more is said than is.
    """
    rows = [
        [row for told in one["told"] for row in told["built"] if row[0] == kind and row[_BETTER]]
        for one in records
    ]
    return (
        mean_of([100.0 * float(np.mean([row[_IN_80] for row in one])) for one in rows]),
        mean_of([100.0 * float(np.mean([row[_IN_95] for row in one])) for one in rows]),
        mean_of([float(np.mean([row[_SAID] - row[_TRUTH] for row in one])) for one in rows]),
    )


def two_way_kinds(records: Sequence[Record]) -> tuple[str, ...]:
    """Return the kinds of change of which the better way of two was marked."""
    return tuple(
        dict.fromkeys(
            row[0]
            for one in records
            for told in one["told"]
            for row in told["built"]
            if row[_BETTER]
        )
    )


def keeping(records: Sequence[Record]) -> tuple[Bin, ...]:
    """Return what was said of keeping the own club and how often it was right, by the chance said.

    Parameters
    ----------
    records : sequence of dict

    Returns
    -------
    tuple of Bin
        One between two edges, then all of them.
    """
    edges = pairwise((*BINS[:-1], 1.01))
    return (*(_bin(records, low, high) for low, high in edges), _bin(records, 0.0, 1.01))


def _bin(records: Sequence[Record], low: float, high: float) -> Bin:
    return _bin_of(
        [
            [told["keep"] for told in one["told"] if low <= told["keep"][0] < high]
            for one in records
        ]
    )


def _bin_of(by_fitting: Sequence[Sequence[Sequence[float]]]) -> Bin:
    """Return pairs of what was said and whether it was right, each fitting's together."""
    every = [pair for one in by_fitting for pair in one]
    if not every:
        return Bin(count=0, said=float("nan"), right=float("nan"), error=float("nan"))
    per_fitting = [
        float(np.mean([float(right) - said for said, right in one])) for one in by_fitting if one
    ]
    error = mean_of(per_fitting).error if len(per_fitting) > 1 else float("nan")
    said, right = np.array(every, dtype=np.float64).mean(axis=0).tolist()
    return Bin(count=len(every), said=said, right=right, error=error)


@dataclass(frozen=True, slots=True, kw_only=True)
class PutForward:
    """Clubs that were not hit and were put forward.

    Attributes
    ----------
    choices, made : int
        Decisions, and in how many of them one was put forward.
    chance : Bin
        How probably each was said to beat the leader, and how often it does.
    gain : float
        By how many yards it does.
    """

    choices: int
    made: int
    chance: Bin
    gain: float


def put_forward(records: Sequence[Record]) -> PutForward:
    """Return how often a club that was not hit was put forward, and what came of it."""
    by_fitting = [
        [(told["call"][0], told["call"][1] > 0.0) for told in one["told"] if told["call"]]
        for one in records
    ]
    gains = [told["call"][1] for one in records for told in one["told"] if told["call"]]
    return PutForward(
        choices=sum(len(one["told"]) for one in records),
        made=len(gains),
        chance=_bin_of(by_fitting),
        gain=float(np.mean(gains)) if gains else float("nan"),
    )


def page_lines(found: Mapping[str, Sequence[Record]]) -> list[str]:
    """Return the tables of a study as lines of a page, one scenario a row."""
    first = next(iter(found.values()))
    kinds = kinds_of(first)
    lines = [
        "## Ranges that hold",
        "",
        "| golfers | fittings | " + " | ".join(_kind_words(kind) for kind in kinds) + " |",
        "|---|---|" + "---|" * len(kinds),
    ]
    for name, records in found.items():
        cells = [_ranges(records, kind) for kind in kinds]
        lines.append(f"| {name} | {len(records)} | " + " | ".join(cells) + " |")
    ways = two_way_kinds(first)
    lines += [
        "",
        "## The better way of two",
        "",
        "| golfers | " + " | ".join(_kind_words(kind) for kind in ways) + " |",
        "|---|" + "---|" * len(ways),
    ]
    for name, records in found.items():
        cells = [_better_way(records, kind) for kind in ways]
        lines.append(f"| {name} | " + " | ".join(cells) + " |")
    lines += [
        "",
        "## Keep your own",
        "",
        "| golfers | "
        + " | ".join(f"said {100 * a:.0f} to {100 * b:.0f} %" for a, b in pairwise(BINS))
        + " | all |",
        "|---|" + "---|" * len(BINS),
    ]
    lines += [
        f"| {name} | " + " | ".join(_chance(one) for one in keeping(records)) + " |"
        for name, records in found.items()
    ]
    lines += [
        "",
        "## Put forward without a ball",
        "",
        "| golfers | choices | put forward | said to beat the leader | does | by |",
        "|---|---|---|---|---|---|",
    ]
    lines += [f"| {name} | {_put_forward(records)} |" for name, records in found.items()]
    return lines


def _put_forward(records: Sequence[Record]) -> str:
    found = put_forward(records)
    if not found.made:
        return f"{found.choices} | 0 | – | – | –"
    chance = found.chance
    does = f"{100 * chance.right:.0f} ± {100 * chance.error:.0f} %"
    gain = f"{found.gain:+.2f} yd".replace("-", "\N{MINUS SIGN}")
    return f"{found.choices} | {found.made} | {100 * chance.said:.0f} % | {does} | {gain}"


def _kind_words(kind: str) -> str:
    return "clubs that were hit, 80 / 95 %" if kind == HIT else f"{kind}, not hit"


def _ranges(records: Sequence[Record], kind: str) -> str:
    in_80, in_95 = (held(records, kind, probability=level) for level in (80, 95))
    return f"{in_80.mean:.1f} ± {in_80.error:.1f} / {in_95.mean:.1f} ± {in_95.error:.1f}"


def _better_way(records: Sequence[Record], kind: str) -> str:
    in_80, in_95, more = of_better_ways(records, kind)
    said = f"{more.mean:+.2f} yd".replace("-", "\N{MINUS SIGN}")
    return f"{in_80.mean:.1f} / {in_95.mean:.1f}, {said}"


def _chance(one: Bin) -> str:
    if not one.count:
        return "–"
    return f"{100 * one.said:.0f} → {100 * one.right:.0f} ± {100 * one.error:.0f} % ({one.count})"
