"""The study of shop records as tables: what it did to the next fittings, and what it found."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

import numpy as np

from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.shop_beliefs import SWING_EFFECTS
from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_world import ROWS
from loftwright.training.summary import Mean, mean_of

MOST_ABOVE: Final = 1.25
"""In a shop that is not as the learning assumes, regret may be a quarter above that of physics
alone; where it is, not above it by more than two standard errors. Both were given beforehand."""

DETAILED: Final = (
    *("golfers made by impact", "the linear bay"),
    *("clubs twice as strong", "clubs half as strong"),
    *("every sample on its own", "no structure at all"),
)
"""Shops of which the page tells what was learned; the file beside it tells it of all."""
_STAGES: Final = {"launch": LAUNCH_NAMES, "swing": tuple(SWING_EFFECTS)}

Unit = Mapping[str, Any]
"""What was simulated of one shop: its kind, what was learned beside the truth, and fittings."""


def fresh_of(units: Sequence[Unit], kind: str, row: str) -> list[Mapping[str, Any]]:
    """Return the fresh fittings of all shops of a kind."""
    return [
        one for unit in units if unit["kind"] == kind for one in unit["fresh"] if one["row"] == row
    ]


def figure(records: Sequence[Mapping[str, Any]], prior: str, name: str) -> Mean:
    """Return the mean of a figure under physics alone or what was learned."""
    return mean_of([one[prior][name] for one in records])


def more_regret(records: Sequence[Mapping[str, Any]]) -> Mean:
    """Return by how much more the learned pick gives up than that of physics, paired [yd]."""
    return mean_of([one["learned"]["regret"] - one["physics"]["regret"] for one in records])


def within_bound(kind: str, records: Sequence[Mapping[str, Any]]) -> bool:
    """Return whether a kind of shop keeps to what was given beforehand."""
    if SHOP_KINDS[kind].well_specified:
        more = more_regret(records)
        return more.mean <= 2.0 * more.error
    physics, learned = (figure(records, one, "regret").mean for one in ("physics", "learned"))
    return learned <= MOST_ABOVE * physics


def page_lines(units: Sequence[Unit]) -> list[str]:
    """Return the tables of the study as lines of a page."""
    kinds = [kind for kind in SHOP_KINDS if any(unit["kind"] == kind for unit in units)]
    return [
        *("## What the pick gives up", "", *_by_row(units, kinds, _regret, _REGRET)),
        *("## What is said, and how often it is right", ""),
        *_by_row(units, kinds, _said, _SAID),
        *("## By what is measured", "", *_by_measured(units), ""),
        *("## What was learned, against the truth", "", *_learned(units, kinds)),
    ]


_REGRET: Final = (
    *("shop", "fittings", "raw averages", "physics alone", "learned"),
    *("learned less physics", "bound"),
)
_SAID: Final = (
    *("shop", "best club, physics", "learned", "regret said, physics", "learned"),
    *("80 % ranges hold, physics", "learned", "95 %, physics", "learned", "wrong of declared"),
)


def _by_row(
    units: Sequence[Unit],
    kinds: Sequence[str],
    line: Callable[[str, Sequence[Mapping[str, Any]]], list[str]],
    head: Sequence[str],
) -> list[str]:
    lines = []
    for row in ROWS:
        lines += [f"### {row[0].upper()}{row[1:]}", "", *_table(head)]
        for kind in kinds:
            records = fresh_of(units, kind, row)
            lines.append(_row([_marked(kind), *line(kind, records)]))
        lines.append("")
    return lines


def _marked(kind: str) -> str:
    return f"**{kind}**" if SHOP_KINDS[kind].well_specified else kind


def _regret(kind: str, records: Sequence[Mapping[str, Any]]) -> list[str]:
    return [
        str(len(records)),
        _cell(mean_of([one["plain"] for one in records]), 2),
        *(_cell(figure(records, prior, "regret"), 2) for prior in ("physics", "learned")),
        _cell(more_regret(records), 2, signed=True),
        "met" if within_bound(kind, records) else "**missed**",
    ]


def _said(_: str, records: Sequence[Mapping[str, Any]]) -> list[str]:
    cells = []
    for name, factor, digits in (
        ("best", 100.0, 0),
        ("said_regret", 1.0, 2),
        ("value_80", 100.0, 0),
        ("value_95", 100.0, 0),
    ):
        for prior in ("physics", "learned"):
            found = figure(records, prior, name)
            cells.append(_cell(Mean(mean=factor * found.mean, error=factor * found.error), digits))
    wrong = [
        f"{sum(one[prior]['wrong'] for one in records):.0f}/"
        f"{sum(one[prior]['declared'] for one in records):.0f}"
        for prior in ("physics", "learned")
    ]
    return [*cells, ", ".join(wrong)]


def _by_measured(units: Sequence[Unit]) -> list[str]:
    """Return regret by what is measured, in the shop as the learning assumes."""
    lines = _table(("clubs", "measured", "fittings", "physics alone", "learned", "difference"))
    kind = next(iter(SHOP_KINDS))
    names = ("delivery and marks", "marks alone", "ball data alone")
    for row in ROWS:
        for place, name in enumerate(names):
            records = [
                one for one in fresh_of(units, kind, row) if one["number"] % len(names) == place
            ]
            if len(records) < 2:
                continue
            cells = [_cell(figure(records, one, "regret"), 2) for one in ("physics", "learned")]
            more = _cell(more_regret(records), 2, signed=True)
            lines.append(_row([row, name, str(len(records)), *cells, more]))
    return lines


def _learned(units: Sequence[Unit], every: Sequence[str]) -> list[str]:
    lines: list[str] = []
    kinds = [kind for kind in every if kind in DETAILED]
    for stage, names in _STAGES.items():
        lines += [
            f"### What differs between clubs, {stage}",
            "",
            *_table(
                (
                    "shop",
                    "what differs",
                    *(f"{name.replace('_', ' ')}: true, learned" for name in names),
                )
            ),
        ]
        for kind in kinds:
            lines += _spreads([one for one in units if one["kind"] == kind], kind, stage)
        lines += [
            "",
            f"### Ranges of what members do, {stage}",
            "",
            *_table(("shop", "level", "figures", "80 % hold", "95 % hold", "error / true")),
        ]
        for kind in kinds:
            lines += _members([one for one in units if one["kind"] == kind], kind, stage)
        lines.append("")
    return [*lines, *_slopes(units, kinds), "", *_offsets(units, every)]


def _spreads(units: Sequence[Unit], kind: str, stage: str) -> list[str]:
    lines = []
    told = [one["against_truth"] for one in units]
    rows = {"golfer and club": [one["clubs"][stage] for one in told]}
    for level in told[0]["levels"][stage]:
        rows[level] = [one["levels"][stage][level] for one in told]
    for name, found in rows.items():
        true = np.mean([one["truth"] for one in found], axis=0)
        learned = np.mean([one["learned"] for one in found], axis=0)
        cells = [f"{a:.2f}, {b:.2f}" for a, b in zip(true, learned, strict=True)]
        lines.append(_row([_marked(kind), _LEVEL_NAMES.get(name, name), *cells]))
    return lines


def _members(units: Sequence[Unit], kind: str, stage: str) -> list[str]:
    lines = []
    told = [one["against_truth"]["members"][stage] for one in units]
    for level in told[0]:
        found = [one[level] for one in told if level in one]
        figures = sum(one["figures"] * _asked(one) for one in found)
        held = [100.0 * sum(_held(one, name) for one in found) / max(figures, 1) for name in _HELD]
        error = np.mean([one["error_rms"] for one in found], axis=0)
        true = np.mean([one["truth_rms"] for one in found], axis=0)
        share = ", ".join(
            f"{a / b:.2f}" if b > 0.0 else "–" for a, b in zip(error, true, strict=True)
        )
        cells = [str(figures), *(f"{one:.0f}" for one in held), share]
        if figures:
            lines.append(_row([_marked(kind), _LEVEL_NAMES.get(level, level), *cells]))
    return lines


_HELD: Final = ("in_80", "in_95")
_LEVEL_NAMES: Final = {"piece": "sample"}


def _asked(one: Mapping[str, Any]) -> int:
    """Return of how many numbers there is anything true to be learned."""
    return sum(value > 0.0 for value in one["truth_rms"])


def _held(one: Mapping[str, Any], name: str) -> int:
    return sum(
        held for held, value in zip(one[name], one["truth_rms"], strict=True) if value > 0.0
    )


def _slopes(units: Sequence[Unit], kinds: Sequence[str]) -> list[str]:
    lines = [
        "### Slopes of the linear bay",
        "",
        *_table(("slope", "true", "learned", "s.e.", "of the golfers: true, learned sd")),
    ]
    for unit in units:
        for one in unit["against_truth"]["slopes"] if unit["kind"] in kinds else ():
            cells = [_number(one[name]) for name in ("truth", "learned", "error")]
            spread = f"{one['true_sd']:.2f}, {one['learned_sd']:.2f}"
            lines.append(_row([one["name"].replace("_", " "), *cells, spread]))
    return lines


def _offsets(units: Sequence[Unit], kinds: Sequence[str]) -> list[str]:
    """Return how often ranges of differences between devices and between bays hold the truth."""
    lines = [
        "### Devices and bays",
        "",
        *_table(("shop", "differences", "80 % hold", "95 % hold", "error", "sd said")),
    ]
    for kind in kinds:
        found = [
            one
            for unit in units
            if unit["kind"] == kind
            for one in unit["against_truth"]["offsets"]
        ]
        if not found:
            continue
        truth, learned, sd = (
            np.array([one[name] for one in found]) for name in ("truth", "learned", "sd")
        )
        error = np.abs(learned - truth)
        held = [f"{100.0 * float((error <= wide * sd).mean()):.0f}" for wide in (1.2816, 1.96)]
        root = [f"{float(np.sqrt((one**2).mean())):.2f}" for one in (error, sd)]
        lines.append(_row([_marked(kind), str(truth.size), *held, *root]))
    return lines


def _table(names: Sequence[str]) -> list[str]:
    return [_row(names), "|---|" + "---|" * (len(names) - 1)]


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _number(value: float, digits: int = 2, sign: str = "") -> str:
    return f"{value:{sign}.{digits}f}".replace("-", "−")


def _cell(one: Mean, digits: int, *, signed: bool = False) -> str:
    mean = _number(one.mean, digits, "+" if signed else "")
    return f"{mean} ± {one.error:.{digits}f}"
