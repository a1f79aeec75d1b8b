"""Two pictures of the truth study as plain SVG: what ranges hold, and what picks give up."""

from collections.abc import Mapping
from html import escape
from math import isfinite
from typing import Final

from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.training.plain_methods import PLAIN
from loftwright.training.tally import Tally
from loftwright.training.truth_study import BUDGETS

_INK: Final = "#1d232b"
_SOFT: Final = "#5b6570"
_BAND: Final = "#e8e2d4"
_PAPER: Final = "#fbfaf6"
_FONT: Final = 'font-family="Source Sans 3, sans-serif" font-size="13"'
_LEAST: Final = 60.0


def _svg(width: int, height: int, title: str, body: list[str]) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" role="img" {_FONT} fill="{_INK}">'
        f"<title>{escape(title)}</title>"
        f'<rect width="{width}" height="{height}" fill="{_PAPER}"/>' + "".join(body) + "</svg>\n"
    )


def _text(x: float, y: float, words: str, *, anchor: str = "start", fill: str = _INK) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{fill}">'
        f"{escape(words)}</text>"
    )


def coverage_picture(found: Mapping[str, Tally]) -> str:
    """Return how often ranges held the truth: one line a scenario, value large, launch small.

    Parameters
    ----------
    found : mapping of str to Tally
        All abilities together, by scenario.
    """
    left, right, top, row = 330.0, 920.0, 56.0, 24.0

    def across(share: float) -> float:
        return left + (min(max(share, _LEAST), 100.0) - _LEAST) / (100.0 - _LEAST) * (right - left)

    bottom = top + row * len(found)
    body = [_text(left, 22, "Share of ranges that hold the truth, per cent")]
    for level in (80.0, 95.0):
        low, high = across(level - 3.0), across(level + 3.0)
        body.append(
            f'<rect x="{low:.1f}" y="{top - 8:.1f}" width="{high - low:.1f}" '
            f'height="{bottom - top + 4:.1f}" fill="{_BAND}"/>'
        )
        body.append(_text(across(level), top - 14, f"{level:.0f} % ranges", anchor="middle"))
    for place, (name, tally) in enumerate(found.items()):
        y = top + row * place + 8.0
        body.append(_text(left - 12, y + 4, name, anchor="end"))
        body.append(f'<path d="M{left} {y}H{right}" stroke="{_BAND}"/>')
        for level in (80, 95):
            for launch in LAUNCH_NAMES:
                share = tally.means[f"swung {launch} {level}"]
                if isfinite(share):
                    body.append(
                        f'<circle cx="{across(share):.1f}" cy="{y}" r="2.5" fill="none" '
                        f'stroke="{_SOFT}"/>'
                    )
            mean, error = tally.get(f"value {level}")
            low, high = across(mean - 2.0 * error), across(mean + 2.0 * error)
            body.append(f'<path d="M{low:.1f} {y}H{high:.1f}" stroke="{_INK}" stroke-width="2"/>')
            body.append(f'<circle cx="{across(mean):.1f}" cy="{y}" r="4.5" fill="{_INK}"/>')
    y = bottom + 18.0
    body += [
        _text(across(share), y, f"{share}", anchor="middle", fill=_SOFT)
        for share in (60, 70, 80, 90, 100)
    ]
    body.append(
        _text(
            left,
            y + 24,
            "Large: value, with two standard errors. Small: five launch numbers as swung. "
            "Bands: three points.",
            fill=_SOFT,
        )
    )
    return _svg(960, int(y + 40), "Share of ranges that hold the truth, by scenario", body)


def regret_picture(found: Mapping[str, Tally]) -> str:
    """Return what the picks of each method give up after each number of balls.

    Parameters
    ----------
    found : mapping of str to Tally
        One scenario's, by ability and `all`.
    """
    tally = found["all"]
    names = [*PLAIN, "model", "guided"]
    lines = {
        name: [tally.get(f"{name} {balls}") for balls in BUDGETS]
        for name in names
        if isfinite(tally.means[f"{name} {BUDGETS[0]}"])
    }
    most = max(mean + error for line in lines.values() for mean, error in line) * 1.05
    left, right, top, bottom = 60.0, 560.0, 30.0, 330.0

    def at(balls: float, yards: float) -> tuple[float, float]:
        x = left + (balls - BUDGETS[0]) / (BUDGETS[-1] - BUDGETS[0]) * (right - left)
        return x, bottom - yards / most * (bottom - top)

    body = [_text(left, 18, "Yards given up by the pick, everything measured, all abilities")]
    for balls in BUDGETS:
        x, _ = at(balls, 0.0)
        body.append(f'<path d="M{x:.1f} {bottom}v6" stroke="{_SOFT}"/>')
        body.append(_text(x, bottom + 22, f"{balls} balls", anchor="middle", fill=_SOFT))
    step = 0.25
    for count in range(int(most / step) + 1):
        _, y = at(BUDGETS[0], count * step)
        body.append(f'<path d="M{left} {y:.1f}H{right}" stroke="{_BAND}"/>')
        body.append(_text(left - 8, y + 4, f"{count * step:.2f}", anchor="end", fill=_SOFT))
    ends = sorted((at(BUDGETS[-1], line[-1][0])[1], name) for name, line in lines.items())
    lowest = top
    for y, name in ends:
        lowest = max(lowest + 16.0, y)
        body.append(_text(right + 12, lowest + 4, name))
    dashes = {"averages": "2 3", "trimmed averages": "6 3", "least squares": "9 3 2 3"}
    for name, line in lines.items():
        points = [at(balls, mean) for balls, (mean, _) in zip(BUDGETS, line, strict=True)]
        path = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        width = 3 if name == "guided" else 2
        body.append(
            f'<path d="M{path}" fill="none" stroke="{_INK}" stroke-width="{width}" '
            f'stroke-dasharray="{dashes.get(name, "none")}"/>'
        )
        for (x, _), balls, (mean, error) in zip(points, BUDGETS, line, strict=True):
            low, high = at(balls, mean - error)[1], at(balls, mean + error)[1]
            body.append(f'<path d="M{x:.1f} {low:.1f}V{high:.1f}" stroke="{_INK}"/>')
    return _svg(720, 370, "Yards given up after each number of balls, by method", body)
