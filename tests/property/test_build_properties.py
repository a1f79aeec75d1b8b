"""What holds of every club: sums, cuts, targets, doubts and verdicts."""

from dataclasses import replace
from typing import Final

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from builds import DRIVER, TOLERANCES, club_at, points, with_head
from loftwright.constants import DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.verdict import Fit, Reading, Side, fit_of, side_of, side_of_least
from loftwright.physics.build.club import (
    Club,
    assembled,
    cuts_for,
    head_reach,
    kept_length,
    longest,
)
from loftwright.physics.build.grip import grip_size, under_grip, wraps_for
from loftwright.physics.build.ground import Sole, ground_at
from loftwright.physics.build.parts import BuildParts, FittedGrip, RawShaft, SeatedHead, SmallPart
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.physics.build.rods import Rod, straight_rod
from loftwright.physics.build.solve import (
    Quantity,
    Target,
    gain_of,
    places_of,
    solve,
    value_of,
)
from loftwright.physics.build.swingweight import (
    FULCRUM,
    USUAL_SCALE,
    calibrated_scale,
    index_of,
    letters,
    swingweight_error,
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


@given(builds(), st.floats(0.0, 3.0))
def test_what_was_cut_off_put_back_gives_the_uncut_club(parts: BuildParts, cut: float) -> None:
    """About the seated tip, which a cut at the butt does not move; without grip, cap and tape."""
    bare = replace(parts, grip=replace(parts.grip, mass=1e-12, cap=0.0))
    whole = bare.shaft.rod.length - bare.shaft.tip_trim
    kept = whole - cut * INCH
    one, other = assembled(bare, whole), assembled(bare, kept)
    piece = cuts_for(bare, kept).butt_piece
    assert other.mass + piece.mass == pytest.approx(one.mass, rel=1e-9)

    def from_tip(club: Club, length: float) -> tuple[float, float]:
        first = sum(part.mass * (length - part.along) for part in club.parts)
        second = sum(
            part.inertia + part.mass * ((length - part.along) ** 2 + part.across**2)
            for part in club.parts
        )
        return first, second

    # The piece is told from the raw tip, the club from its butt.
    away = piece.balance - bare.shaft.tip_trim if piece.mass > 0.0 else 0.0
    first, second = from_tip(other, kept)
    whole_first, whole_second = from_tip(one, whole)
    assert first + piece.mass * away == pytest.approx(whole_first, rel=1e-9, abs=1e-9)
    assert second + piece.inertia + piece.mass * away**2 == pytest.approx(
        whole_second, rel=1e-9, abs=1e-9
    )


@given(builds(), st.floats(0.1, 2.5), st.floats(0.1, 0.4))
def test_a_shorter_club_has_less_swingweight_and_less_club_moi(
    parts: BuildParts, cut: float, more: float
) -> None:
    whole = parts.shaft.rod.length - parts.shaft.tip_trim
    one, other = (assembled(parts, whole - off * INCH) for off in (cut, cut + more))
    assert other.mass < one.mass
    assert points(other) < points(one)
    assert other.inertia < one.inertia
    assert one.length - other.length == pytest.approx(more * INCH)


@given(builds(), st.floats(1.0, 20.0))
def test_weight_moves_the_scale_by_its_lever_and_the_club_moi_by_its_square(
    parts: BuildParts, grams: float
) -> None:
    kept = parts.shaft.rod.length - parts.shaft.tip_trim
    base = assembled(parts, kept)
    for place, amounts_added in (("head", (grams, 0.0)), ("butt", (0.0, grams))):
        head, butt = (one * GRAM for one in amounts_added)
        club = assembled(parts, kept, head, butt)
        free = places_of(parts, base)[0 if place == "head" else 1]
        for quantity in Quantity:
            gained = value_of(quantity, club) - value_of(quantity, base)
            assert gained == pytest.approx(grams * GRAM * gain_of(quantity, free), rel=1e-6)
    counterweighted = assembled(parts, kept, 0.0, grams * GRAM)
    assert points(counterweighted) < points(base)
    # A butt counterweight moves the scale and hardly the inertia: 12 kg cm² a gram at the head.
    gained = (counterweighted.inertia - base.inertia) / KILOGRAM_SQUARE_CENTIMETRE
    assert 0.0 <= gained < 0.02 * grams


@given(builds(), st.floats(0.5, 2.0))
def test_asking_for_what_a_club_has_adds_nothing(parts: BuildParts, cut: float) -> None:
    length = longest(parts) - cut * INCH
    base = assembled(parts, kept_length(parts, length))
    assume(0.0 <= points(base) <= 70.0)
    for target in (
        Target(length=length, swingweight=points(base)),
        Target(length=length, mass=base.mass),
        Target(length=length, inertia=base.inertia),
        Target(length=length, swingweight=points(base), mass=base.mass),
    ):
        answer = solve(parts, target)
        assert answer.feasible
        assert answer.head_added == pytest.approx(0.0, abs=1e-9)
        assert answer.butt_added == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0.2, 0.5), st.floats(0.6, 0.95), st.floats(0.01, 0.15), st.floats(0.01, 0.15))
def test_a_pendulum_tells_the_same_club_wherever_it_hangs(
    mass: float, balance: float, one: float, other: float
) -> None:
    own = mass * 0.08  # a radius of gyration of 0.28 m, as clubs have
    inertia = own + mass * balance**2

    def read(pivot: float) -> float:
        arm = balance - pivot
        period = 2.0 * np.pi * np.sqrt((own + mass * arm**2) / (mass * 9.80665 * arm))
        return pendulum_inertia(
            Pendulum(mass=mass, balance=balance, pivot=pivot, period=float(period))
        )

    assert read(one) == pytest.approx(inertia, rel=1e-9)
    assert read(other) == pytest.approx(inertia, rel=1e-9)


@given(st.floats(0.2, 0.5), st.floats(0.7, 0.95), st.floats(0.01, 0.1))
def test_the_doubt_of_a_pendulum_is_that_of_its_slopes(
    mass: float, balance: float, pivot: float
) -> None:
    arm = balance - pivot
    period = float(2.0 * np.pi * np.sqrt((0.08 + arm**2) / (9.80665 * arm)))
    swung = Pendulum(mass=mass, balance=balance, pivot=pivot, period=period)
    for name, error in (("period", 0.002), ("mass", 5e-4), ("balance", 1e-3), ("pivot", 1e-3)):
        step = 1e-3 * error
        higher, lower = (
            pendulum_inertia(replace(swung, **{name: getattr(swung, name) + by}))
            for by in (step, -step)
        )
        slope = (higher - lower) / (2.0 * step)
        told = pendulum_error(swung, **({"period": 0.0} | {name: error}))
        assert told == pytest.approx(abs(slope) * error, rel=1e-4, abs=1e-9)


@given(st.floats(0.2, 0.5), st.floats(0.5, 0.95))
def test_the_doubt_of_a_swingweight_is_that_of_its_slopes(mass: float, balance: float) -> None:
    def index(weight: float, place: float) -> float:
        return USUAL_SCALE.index(weight * (place - FULCRUM))

    by_mass = index(mass + 5e-4, balance) - index(mass, balance)
    by_balance = index(mass, balance + 1e-3) - index(mass, balance)
    assert swingweight_error(mass, balance, 5e-4, 1e-3) == pytest.approx(
        float(np.hypot(by_mass, by_balance)), rel=1e-6
    )


@given(
    st.floats(-0.05, 0.05),
    st.floats(0.0, 0.06),
    st.floats(0.0, 0.5),
    st.floats(45.0, 75.0),
)
def test_a_length_changes_with_the_lie_by_where_the_sole_touches(
    along: float, across: float, radius: float, lie: float
) -> None:
    sole = Sole(along=along, across=across, radius=radius)
    step = 1e-5
    here = lie * DEGREE
    slope = (ground_at(sole, here + step) - ground_at(sole, here - step)) / (2.0 * step)
    told = sole.contact(here) / np.sin(here) ** 2
    assert slope == pytest.approx(told, rel=1e-5, abs=1e-7)


@given(st.floats(0.55, 0.65), st.floats(0.0, 8.0), st.floats(0.003, 0.01), st.floats(0.55, 0.62))
def test_tape_under_a_grip_is_reckoned_back_and_both_sizes_grow_together(
    butt: float, wraps: float, tape: float, core: float
) -> None:
    under = under_grip(butt * INCH, wraps, tape * INCH)
    assert wraps_for(under - butt * INCH, tape * INCH) == pytest.approx(wraps, abs=1e-6)
    size = grip_size(0.9 * INCH, core * INCH, under)
    more = grip_size(0.9 * INCH, core * INCH, under + 0.01 * INCH)
    assert (size.added - 0.9 * INCH) * (size.stretched - 0.9 * INCH) >= 0.0
    assert size.low <= size.high
    assert more.added > size.added
    assert more.stretched > size.stretched
    # The rubber keeps its volume: it grows by less than the diameters added do.
    assert abs(size.stretched - 0.9 * INCH) <= abs(size.added - 0.9 * INCH) + 1e-12


@settings(max_examples=40)
@given(builds())
def test_doubts_of_two_parts_come_together_as_a_right_angle_s_sides_do(
    parts: BuildParts,
) -> None:
    kept = parts.shaft.rod.length - parts.shaft.tip_trim - 1.0 * INCH
    nothing = dict.fromkeys(PartErrors.__dataclass_fields__, 0.0)
    weighed, deep = {"mass": 0.5 * GRAM}, {"reach": 2.5e-3}
    one, other, both = (
        club_errors(parts, kept, PartErrors(**(nothing | more)))
        for more in (weighed, deep, weighed | deep)
    )
    for name in ("length", "mass", "balance", "swingweight", "inertia"):
        pair = float(np.hypot(getattr(one, name), getattr(other, name)))
        assert getattr(both, name) == pytest.approx(pair, rel=1e-6, abs=1e-15)
    assert one.length == pytest.approx(0.0, abs=1e-12)
