"""Invented fittings for the tests of words and paper; every name and figure is made up."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from html import unescape
from itertools import combinations
from typing import Any

import pytest

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.device import Column, Origin
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.domain.shot import Duplicate, Refusal, Shot, ShotTable
from loftwright.evidence.result import (
    Against,
    Claim,
    ClubResult,
    Decision,
    Estimate,
    Figures,
    Level,
    NextClub,
    OddBall,
    Pair,
    Parts,
    Pattern,
    RankedOn,
    State,
)
from loftwright.report.content import ReportContent
from loftwright.report.picture_parts import Box, text_box
from loftwright.report.theme_svg import for_screen

# club, balls, as you swing it [yd] and sd, from the same swing [yd] and sd, start line, curve
# (right +) [yd], height [ft], landing [deg], carry, run [yd], fairways in 14, strokes a round,
# plain average [yd], physics share.
ROWS: tuple[tuple[Any, ...], ...] = (
    ("Birch", 11, 5.4, 2.7, 4.2, 1.6, -3, 4, 88, 37, 221, 12, 9.1, -0.45, 231.6, 0.16),
    ("Elm", 9, 4.9, 2.9, 5.2, 1.7, -5, 2, 79, 35, 219, 14, 9.0, -0.40, 232.2, 0.20),
    ("Cedar", 7, 2.0, 2.9, 1.1, 1.7, 1, 8, 92, 38, 219, 11, 8.2, -0.06, 229.9, 0.26),
    ("Ash", 4, -0.6, 3.4, -0.9, 2.1, 2, 9, 94, 40, 217, 10, 7.8, 0.20, 232.8, 0.51),
    ("Own", 8, 0.0, 0.0, 0.0, 0.0, 1, 8, 86, 38, 216, 12, 8.6, 0.0, 226.8, 0.10),
)
MORE = ("Fir", "Hazel", "Larch", "Maple", "Oak", "Pine", "Rowan", "Willow")
OWN_STROKES = 57.3


def yards(mean: float, sd: float) -> Estimate:
    """Return an estimate given in yards."""
    return Estimate(mean=mean * YARD, sd=sd * YARD, df=30.0)


def scaled(mean: float, sd: float, unit: float) -> Estimate:
    """Return an estimate given in a trade unit."""
    return Estimate(mean=mean * unit, sd=sd * unit, df=30.0)


def figures(total: float, sd: float) -> Figures:
    """Return the differences of a club whose total differs so."""
    return Figures(
        ball_speed=scaled(0.2 * total, 0.2 * sd, MILE_PER_HOUR),
        launch=scaled(0.1 * total, 0.1 * sd, DEGREE),
        direction=scaled(-0.1 * total, 0.1 * sd, DEGREE),
        spin=scaled(-20.0 * total, 20.0 * sd, REVOLUTION_PER_MINUTE),
        axis=scaled(-0.3 * total, 0.3 * sd, DEGREE),
        carry=yards(0.9 * total, sd),
        total=yards(total, sd),
        offline=yards(-0.5 * total, sd),
    )


def club(row: tuple[Any, ...], name: str) -> ClubResult:
    """Return one club's result."""
    _, balls, total, sd, same, same_sd, start, curve, height, landing, carry, run, *rest = row
    fairways, strokes, plain, share = rest
    level = Level(
        ball_speed=(145.0 + 0.2 * total) * MILE_PER_HOUR,
        launch=13.2 * DEGREE,
        direction=start / 230.0,
        spin=2600.0 * REVOLUTION_PER_MINUTE,
        axis=3.0 * DEGREE,
        carry=carry * YARD,
        total=(carry + run) * YARD,
        offline=(start + curve) * YARD,
        start_offline=start * YARD,
        curve=curve * YARD,
        peak_height=height * FOOT,
        landing_angle=landing * DEGREE,
        fairways_in_14=fairways,
        strokes_per_round=OWN_STROKES + strokes,
        aim=-2.0 * YARD,
    )
    own = row[0] == "Own"
    return ClubResult(
        club=name,
        balls=balls,
        value=yards(total, sd),
        p_best={"Birch": 0.52, "Elm": 0.41}.get(row[0], 0.03),
        as_you_swing_it=Figures(total=yards(0.0, 0.0)) if own else figures(total, sd),
        from_the_same_swing=Figures(total=yards(0.0, 0.0)) if own else figures(same, same_sd),
        level=level,
        physics_share=share,
        plain_total=plain * YARD,
        device_ball_speed=None,
        device_carry=None,
    )


def pairs(clubs: tuple[ClubResult, ...]) -> tuple[Pair, ...]:
    """Return every pair, the higher ranked first, with parts that sum to the difference."""
    found = []
    for index, a in enumerate(clubs):
        for b in clubs[index + 1 :]:
            if (
                a.plain_total is None
                or b.plain_total is None
                or a.value is None
                or b.value is None
            ):
                found.append(Pair(a=a.club, b=b.club, p_a_better=None, raw_total=None, parts=None))
                continue
            raw = a.plain_total - b.plain_total
            same = (a.from_the_same_swing, b.from_the_same_swing)
            parts = None
            if same[0] is not None and same[1] is not None and same[0].total and same[1].total:
                effect = same[0].total.mean - same[1].total.mean
                known = (0.7 * YARD, -4.8 * YARD, -1.6 * YARD, -0.7 * YARD, effect)
                parts = Parts(
                    odd_balls=known[0],
                    strike=known[1],
                    swing=known[2],
                    warm_up=known[3],
                    club=known[4],
                    left_over=raw - sum(known),
                )
            gap = (a.value.mean - b.value.mean) / YARD
            better = min(0.999, 0.5 + 0.09 * gap)
            found.append(Pair(a=a.club, b=b.club, p_a_better=better, raw_total=raw, parts=parts))
    return tuple(found)


HOME = Home(
    name="Farrow Links",
    altitude=120.0 * FOOT,
    temperature=288.7,
    humidity=0.7,
    wind_along=-3.0 * MILE_PER_HOUR,
    wind_across=2.0 * MILE_PER_HOUR,
    holes=(
        Hole(length=395.0 * YARD, fairway=32.0 * YARD),
        Hole(
            length=420.0 * YARD,
            fairway=30.0 * YARD,
            trouble=Trouble.RIGHT,
            trouble_from=30.0 * YARD,
        ),
    ),
)

CLAIMS = (
    Claim(say="which club goes further, to about 5 yd", may=True, why="8 balls a club with marks"),
    Claim(
        say="where each club starts, to about 3 yd, and how it curves, to about 4 yd",
        may=True,
        why="start direction and spin axis are measured",
    ),
    Claim(
        say="why two averages differ: strike, swing, warm-up, club",
        may=True,
        why="strike is marked and delivery measured",
    ),
    Claim(
        say="which club is straighter",
        may=False,
        why="that takes some 160 balls a club",
    ),
    Claim(say="what a wet or windy day changes between two clubs", may=False, why="not modelled"),
)


@pytest.fixture(scope="session")
def make_decision() -> Callable[..., Decision]:
    """Return a maker of decisions with so many clubs, renamed as `names` says."""

    def make(clubs: int = 5, names: dict[str, str] | None = None) -> Decision:
        names = names or {}
        rows = list(ROWS)
        for index in range(clubs - len(ROWS)):
            base = list(ROWS[3])
            base[0] = MORE[index] if index < len(MORE) else f"Demo {index}"
            base[2] -= 0.4 * (index + 1)
            rows.insert(-1, tuple(base))
        if clubs < len(ROWS):
            rows = [*rows[: clubs - 1], rows[-1]]
        made = [club(row, names.get(row[0], row[0])) for row in rows]
        own = made[-1]
        ranked = sorted(made, key=lambda item: -(item.value.mean if item.value else 0.0))
        return Decision(
            state=State.STRONG,
            ranked_on=RankedOn.AS_YOU_SWING_IT,
            against=Against.OWN,
            own=own.club,
            clubs=tuple(ranked),
            pairs=pairs(tuple(ranked)),
            odd_balls=(
                OddBall(row=9, weight=0.12, why="spin 1300 rpm above this club's others"),
                OddBall(row=23, weight=0.31, why="ball speed 9 mph below the swing"),
                OddBall(row=31, weight=0.44, why="starts 7 deg right of its face and path"),
            ),
            next_club=NextClub(club=ranked[1].club, why="it can still beat the leader", gain=0.2),
            regret=0.6 * YARD,
            p_leader_near_best=0.8,
            home=HOME,
            pattern=Pattern(total=8.5 * YARD, offline=14.5 * YARD),
            claims=CLAIMS,
            warnings=("column Smoothness is not used: its meaning is not known",),
        )

    return make


@pytest.fixture(scope="session")
def shot_table() -> Callable[[Decision], ShotTable]:
    """Return a maker of the table that a decision might have come from."""

    def make(decision: Decision) -> ShotTable:
        shots: list[Shot] = []
        names = sorted((item.club for item in decision.clubs), key=lambda name: name != "Own")
        left = {item.club: item.balls for item in decision.clubs}
        while any(left.values()):
            for name in names:
                if left[name]:
                    left[name] -= 1
                    count = len(shots)
                    shots.append(Shot(row=count + 3, order=count, club=name, ball_speed=65.0))
        measured = (
            "ball speed",
            "launch",
            "direction",
            "spin",
            "axis",
            "strike toe",
            "strike high",
        )
        columns = tuple(
            Column(column=name, means=name, unit="", origin=Origin.MEASURED, source="the heading")
            for name in measured
        )
        columns += (
            Column(
                column="Tempo", means="ignore", unit="", origin=Origin.UNKNOWN, source="the user"
            ),
            Column(
                column="Carry", means="carry", unit="yd", origin=Origin.CALCULATED, source="values"
            ),
            Column(column="", means="head speed", unit="", origin=Origin.ABSENT, source="values"),
        )
        return ShotTable(
            read=len(shots) + 3,
            shots=tuple(shots),
            refused=(
                Refusal(row=len(shots) + 3, why="an average at the foot of the table"),
                Refusal(row=len(shots) + 4, why="no ball speed, launch or spin"),
            ),
            duplicates=(Duplicate(row=len(shots) + 5, of=12),),
            columns=columns,
        )

    return make


@pytest.fixture(scope="session")
def make_content(
    shot_table: Callable[[Decision], ShotTable],
) -> Callable[[Decision], ReportContent]:
    """Return a maker of reports: every name that a report can bear."""

    def make(decision: Decision) -> ReportContent:
        return ReportContent(
            decision=decision,
            table=shot_table(decision),
            golfer="Ottoline Brambleby",
            fitter="Wren Tallowby",
            studio="The Tern and Tee",
            visit_date=date(2026, 11, 25),
            conditions=("One ball for all clubs, new.",),
            version="0.1.0",
        )

    return make


@pytest.fixture(scope="session")
def device_decision(make_decision: Callable[..., Decision]) -> Decision:
    """Return what is left when a device gives speed and carry alone."""
    decision = make_decision(clubs=4)
    own = decision.own
    clubs = tuple(
        ClubResult(
            club=club.club,
            balls=club.balls,
            device_carry=yards(0.0, 0.0) if club.club == own else yards(1.0, 2.0),
            device_ball_speed=scaled(0.0 if club.club == own else 0.4, 0.8, MILE_PER_HOUR),
        )
        for club in decision.clubs
    )
    return replace(
        decision,
        state=State.TOO_CLOSE,
        ranked_on=RankedOn.DEVICE_CARRY,
        clubs=clubs,
        pairs=tuple(
            replace(pair, p_a_better=0.6, raw_total=None, parts=None) for pair in decision.pairs
        ),
        regret=None,
        p_leader_near_best=None,
        home=Home(),
        pattern=None,
        claims=tuple(replace(claim, may=False) for claim in decision.claims),
    )


@pytest.fixture(scope="session")
def few_decision(make_decision: Callable[..., Decision]) -> Decision:
    """Return a comparison of three balls, which says nothing."""
    decision = make_decision(clubs=2)
    clubs = tuple(
        replace(club, balls=balls, value=None, p_best=None, physics_share=0.9)
        for club, balls in zip(decision.clubs, (2, 1), strict=True)
    )
    return replace(
        decision,
        state=State.TOO_FEW,
        clubs=clubs,
        pairs=tuple(
            replace(pair, p_a_better=None, raw_total=None, parts=None) for pair in decision.pairs
        ),
        odd_balls=(),
        regret=None,
        p_leader_near_best=None,
    )


def labels_of(svg: str) -> list[tuple[str, Box]]:
    """Return the level labels of a picture with the boxes they stand in."""
    found = []
    for attributes, words in re.findall(r"<text ([^>]*)>([^<]*)</text>", svg):
        told = dict(re.findall(r'([\w-]+)="([^"]*)"', attributes))
        if "transform" not in told:
            anchor: Any = told["text-anchor"]
            text, bold = unescape(words), "font-weight" in told
            at = float(told["x"]), float(told["y"])
            found.append((text, text_box(*at, text, anchor=anchor, bold=bold)))
    return found


@pytest.fixture(scope="session")
def misplaced() -> Callable[[str], list[str]]:
    """Return a check of a picture's labels: those that overlap or leave the picture."""

    def check(svg: str) -> list[str]:
        width, height = map(float, re.findall(r'viewBox="0 0 (\d+) (\d+)"', svg)[0])
        labels = labels_of(svg)
        clashes = [
            f"{a} on {b}" for (a, one), (b, two) in combinations(labels, 2) if one.meets(two)
        ]
        # The measure errs to the wide side, so a label at an edge may seem to leave the picture.
        gone = [
            text
            for text, box in labels
            if box.left < -6.0
            or box.right > width + 6.0
            or box.top < -1.0
            or box.bottom > height + 2.0
        ]
        return clashes + gone

    return check


@pytest.fixture(scope="session")
def on_screen() -> Callable[[str], str]:
    """Return the step to the screen that also checks what a page's policy asks of a drawing."""

    def step(svg: str) -> str:
        shown = for_screen(svg)
        assert "var(" not in svg
        assert re.findall(r'="#[0-9a-fA-F]', shown) == []
        assert " style=" not in shown
        ids = re.findall(r' id="([^"]*)"', shown)
        assert len(ids) == len(set(ids))
        assert re.findall(r'role="img" aria-labelledby="([^"]*)"', shown) == [ids[0]]
        assert f'<title id="{ids[0]}">' in shown
        assert set(re.findall(r"url\(#([^)]*)\)", shown)) <= set(ids)
        return shown

    return step
