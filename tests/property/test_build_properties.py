"""What holds of every club: sums, cuts, targets, doubts and verdicts."""

from dataclasses import replace
from typing import Final

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from builds import DRIVER, TOLERANCES, club_at, points, with_head
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.verdict import Fit, Reading, Side, fit_of, side_of, side_of_least
from loftwright.physics.build.club import assembled, cuts_for, head_reach, kept_length, longest
from loftwright.physics.build.parts import BuildParts, FittedGrip, RawShaft, SeatedHead, SmallPart
from loftwright.physics.build.pendulum import Pendulum, pendulum_inertia
from loftwright.physics.build.rods import Rod, straight_rod
from loftwright.physics.build.solve import Quantity, Target, solve, value_of
from loftwright.physics.build.swingweight import (
    FULCRUM,
    USUAL_SCALE,
    calibrated_scale,
    index_of,
    letters,
)
from loftwright.physics.build.trades import Trade, nearest_trades
from loftwright.physics.build.uncertainty import PartErrors, club_errors

shares = st.floats(0.0, 1.0)


@st.composite
def rods(draw: st.DrawFn) -> Rod:
    steps = draw(st.lists(st.floats(0.01, 0.3), min_size=1, max_size=8))
    densities = st.floats(0.0, 0.2)
    density = draw(st.lists(densities, min_size=len(steps) + 1, max_size=len(steps) + 1))
    assume(max(density) > 1e-3)
    return Rod(stations=np.concatenate([[0.0], np.cumsum(steps)]), density=np.array(density))


@st.composite
def builds(draw: st.DrawFn) -> BuildParts:
    def among(low: float, high: float) -> float:
        return draw(st.floats(low, high))

    shaft = among(44.0, 48.0) * INCH
    return BuildParts(
        shaft=RawShaft(
            rod=straight_rod(among(50.0, 120.0) * GRAM, shaft, among(0.4, 0.6) * shaft, "shaft"),
            tip_trim=among(0.0, 2.0) * INCH,
        ),
        head=SeatedHead(
            mass=among(190.0, 220.0) * GRAM,
            reach=among(-0.5, 1.5) * INCH,
            toe=among(0.0, 45.0) * 1e-3,
            inertia=among(0.0, 6.0) * KILOGRAM_SQUARE_CENTIMETRE,
            to_plane=among(1.0, 2.5) * INCH,
        ),
        grip=FittedGrip(
            mass=among(25.0, 70.0) * GRAM,
            length=10.5 * INCH,
            balance=among(3.6, 6.8) * INCH,
            cap=among(0.0, 0.3) * INCH,
        ),
        small=(SmallPart(name="adapter", mass=among(0.0, 12.0) * GRAM, reach=-0.6 * INCH),),
    )


@given(rods(), shares, shares)
def test_pieces_of_a_rod_come_to_the_whole(rod: Rod, one: float, other: float) -> None:
    low, high = sorted((one * rod.length, other * rod.length))
    pieces = [rod.between(0.0, low), rod.between(low, high), rod.between(high, rod.length)]
    whole = rod.whole
    assert sum(piece.mass for piece in pieces) == pytest.approx(whole.mass, rel=1e-12)
    moment = sum(piece.mass * piece.balance for piece in pieces)
    assert moment == pytest.approx(whole.mass * whole.balance, rel=1e-9)
    about_end = sum(piece.inertia + piece.mass * piece.balance**2 for piece in pieces)
    assert about_end == pytest.approx(whole.inertia + whole.mass * whole.balance**2, rel=1e-9)


@settings(max_examples=40)
@given(rods())
def test_a_rod_agrees_with_a_sum_over_many_stations(rod: Rod) -> None:
    along = np.linspace(0.0, rod.length, 200_001)
    density = np.interp(along, rod.stations, rod.density)
    step = along[1]

    def total(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
        return float((values.sum() - 0.5 * (values[0] + values[-1])) * step)

    whole = rod.whole
    assert whole.mass == pytest.approx(total(density), rel=1e-4)
    assert whole.mass * whole.balance == pytest.approx(total(density * along), rel=1e-4)
    about_end = whole.inertia + whole.mass * whole.balance**2
    assert about_end == pytest.approx(total(density * along**2), rel=1e-4)


@given(builds(), st.floats(0.0, 3.0))
def test_a_club_is_the_sum_of_its_parts(parts: BuildParts, cut: float) -> None:
    kept = parts.shaft.rod.length - parts.shaft.tip_trim - cut * INCH
    club, cuts = assembled(parts, kept), cuts_for(parts, kept)
    rest = parts.head.mass + parts.grip.mass + sum(part.mass for part in parts.small)
    shaft = parts.shaft.rod.whole.mass
    assert club.mass + cuts.tip_piece.mass + cuts.butt_piece.mass == pytest.approx(rest + shaft)
    assert cuts.tip_trim + cuts.butt_cut + cuts.kept == pytest.approx(cuts.raw)
    assert club.inertia >= club.mass * club.balance**2
    assert club.length == pytest.approx(kept + parts.grip.cap + parts.head.to_plane)


@given(builds())
def test_nothing_cut_is_the_whole_shaft(parts: BuildParts) -> None:
    whole = replace(parts, shaft=replace(parts.shaft, tip_trim=0.0))
    club = assembled(whole, whole.shaft.rod.length)
    shaft = next(part for part in club.parts if part.name == "shaft")
    assert shaft.mass == pytest.approx(whole.shaft.rod.whole.mass, rel=1e-12)
    assert shaft.inertia == pytest.approx(whole.shaft.rod.whole.inertia, rel=1e-9)
    assert club.length == pytest.approx(longest(whole))


@given(builds(), st.floats(0.0, 0.3))
def test_inertia_about_the_balance_point_does_not_know_of_the_cap(
    parts: BuildParts, cap: float
) -> None:
    """With no grip worth speaking of, a thicker cap only moves the whole club along."""
    bare = replace(parts.grip, mass=1e-12)
    kept = parts.shaft.rod.length - parts.shaft.tip_trim

    def about_balance(thick: float) -> float:
        club = assembled(replace(parts, grip=replace(bare, cap=thick * INCH)), kept)
        return club.inertia - club.mass * club.balance**2

    assert about_balance(cap) == pytest.approx(about_balance(0.0), rel=1e-6)


@settings(max_examples=40)
@given(builds(), st.floats(29.0, 36.0), st.floats(-2.0, 12.0), st.floats(0.5, 2.0))
def test_a_solved_club_has_what_was_asked_and_pays_nothing_back(
    parts: BuildParts, index: float, heavier: float, cut: float
) -> None:
    length = longest(parts) - cut * INCH
    base = assembled(parts, kept_length(parts, length))
    target = Target(length=length, swingweight=index, mass=base.mass + heavier * GRAM)
    answer = solve(parts, target)
    assert answer.club is not None
    for one, value in target.wanted.items():
        assert value_of(one, answer.club) == pytest.approx(value, rel=1e-9)
    nothing = -1e-9
    fits = (
        nothing <= (answer.head_added or 0.0) <= parts.head.most_added - nothing
        and nothing <= (answer.butt_added or 0.0) <= parts.butt_weight.most - nothing
    )
    assert answer.feasible is fits
    assert bool(answer.reasons) is not fits


@settings(max_examples=40)
@given(builds(), st.floats(20.0, 45.0), st.floats(-10.0, 20.0))
def test_no_trade_asks_for_less_than_nothing_and_each_holds_what_it_says(
    parts: BuildParts, index: float, heavier: float
) -> None:
    length = longest(parts) - 1.0 * INCH
    base = assembled(parts, kept_length(parts, length))
    target = Target(length=length, swingweight=index, mass=base.mass + heavier * GRAM)
    answer = solve(parts, target)
    trades = nearest_trades(parts, answer, TOLERANCES)
    assert not (answer.feasible and trades)
    for one in trades:
        assert 0.0 <= one.head_added <= parts.head.most_added + 1e-12
        assert 0.0 <= one.butt_added <= parts.butt_weight.most + 1e-12
        if one.held is not None:
            wanted = target.wanted[one.held]
            assert value_of(one.held, one.club) == pytest.approx(wanted, rel=1e-6)
        if one.trade is Trade.LENGTH:
            for quantity, value in target.wanted.items():
                assert value_of(quantity, one.club) == pytest.approx(value, rel=1e-6)


@settings(max_examples=40)
@given(st.floats(20.0, 45.0), st.floats(-8.0, 15.0), shares, shares)
def test_nothing_that_fits_is_nearer_than_the_nearest(
    index: float, heavier: float, head: float, butt: float
) -> None:
    base = club_at(45.0 * INCH)
    target = Target(length=45.0 * INCH, swingweight=index, mass=base.mass + heavier * GRAM)
    trades = nearest_trades(DRIVER, solve(DRIVER, target), TOLERANCES)
    nearest = [one for one in trades if one.trade is Trade.NEAREST]
    assume(nearest)

    def missed(club: object) -> float:
        assert hasattr(club, "mass")
        apart = (points(club) - index) / TOLERANCES[Quantity.SWINGWEIGHT]  # type: ignore[arg-type]
        mass = (club.mass - base.mass - heavier * GRAM) / TOLERANCES[Quantity.MASS]
        return float(np.hypot(apart, mass))

    other = club_at(
        45.0 * INCH,
        head_added=head * DRIVER.head.most_added,
        butt_added=butt * DRIVER.butt_weight.most,
    )
    assert missed(nearest[0].club) <= missed(other) + 1e-9


@given(builds(), st.floats(-0.5, 1.5))
def test_a_dry_fit_gives_the_heads_depth_back(parts: BuildParts, reach: float) -> None:
    true = replace(parts, head=replace(parts.head, reach=reach * INCH))
    kept = parts.shaft.rod.length - parts.shaft.tip_trim
    club = assembled(true, kept)
    assert head_reach(parts, kept, club.mass, club.balance) == pytest.approx(reach * INCH)


@given(builds())
def test_a_pendulum_gives_the_inertia_of_every_club_back(parts: BuildParts) -> None:
    club = assembled(parts, parts.shaft.rod.length - parts.shaft.tip_trim)
    arm = club.balance - 0.05
    about = club.inertia - club.mass * (club.balance**2 - arm**2)
    period = 2.0 * np.pi * np.sqrt(about / (club.mass * 9.80665 * arm))
    pendulum = Pendulum(mass=club.mass, balance=club.balance, pivot=0.05, period=float(period))
    assert pendulum_inertia(pendulum) == pytest.approx(club.inertia, rel=1e-9)


@given(st.integers(0, 700))
def test_every_tenth_of_a_point_is_written_and_read_back(tenths: int) -> None:
    assert index_of(letters(tenths / 10.0)) == pytest.approx(tenths / 10.0)


@given(st.floats(0.28, 0.4), st.floats(31.0, 35.0), st.floats(-9.0, 9.0))
def test_a_calibrated_scale_reads_its_club_as_it_was_read(
    mass: float, balance: float, off: float
) -> None:
    moment = mass * (balance * INCH - FULCRUM)
    reads = USUAL_SCALE.index(moment) + off
    scale = calibrated_scale(mass, balance * INCH, reads)
    assert scale.index(moment) == pytest.approx(reads)
    assert scale.moment(scale.index(moment)) == pytest.approx(moment)


@settings(max_examples=40)
@given(builds(), st.floats(1.5, 4.0))
def test_doubt_grows_with_the_doubts_of_the_parts(parts: BuildParts, times: float) -> None:
    kept = parts.shaft.rod.length - parts.shaft.tip_trim - 1.0 * INCH
    usual = PartErrors()
    wider = PartErrors(
        **{name: times * getattr(usual, name) for name in PartErrors.__dataclass_fields__}
    )
    one, other = (club_errors(parts, kept, errors) for errors in (usual, wider))
    for name in ("length", "mass", "balance", "swingweight", "inertia"):
        assert getattr(other, name) == pytest.approx(times * getattr(one, name), rel=1e-2)


values: Final = st.floats(-1e3, 1e3)
widths: Final = st.floats(1e-6, 1e2)


@given(values, widths, values)
def test_a_limit_has_three_verdicts_and_two_of_them_are_sure(
    value: float, width: float, limit: float
) -> None:
    side = side_of(Reading(value=value, half_width=width), limit)
    slack = 1e-9 * (1.0 + abs(limit) + abs(value))
    if side is Side.BELOW:
        assert value + width <= limit + slack
    elif side is Side.ABOVE:
        assert value - width > limit - slack
    else:
        assert value - width <= limit + slack
        assert value + width > limit - slack
    mirrored = side_of_least(Reading(value=-value, half_width=width), -limit)
    turned = {Side.BELOW: Side.ABOVE, Side.ABOVE: Side.BELOW, Side.TOO_CLOSE: Side.TOO_CLOSE}
    assert mirrored is turned[side]


@given(values, widths, values, st.floats(1e-6, 1e2), st.floats(1.0, 10.0))
def test_a_wider_doubt_never_turns_out_into_in(
    value: float, width: float, target: float, tolerance: float, times: float
) -> None:
    sure = fit_of(Reading(value=value, half_width=width), target, tolerance)
    unsure = fit_of(Reading(value=value, half_width=times * width), target, tolerance)
    assert unsure in {sure, Fit.CANNOT_TELL}


@given(st.floats(0.0, 10.0))
def test_a_heavier_head_is_the_same_as_weight_added_to_it(added: float) -> None:
    one = club_at(45.0 * INCH, with_head(DRIVER, added * GRAM))
    other = club_at(45.0 * INCH, head_added=added * GRAM)
    assert one.moment == pytest.approx(other.moment)
    assert one.inertia == pytest.approx(other.inertia)
