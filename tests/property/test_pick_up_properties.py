"""What must hold of two clubs set against each other, whatever their balls."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fittings import made_balls
from loftwright.domain.check_acts import Against
from loftwright.domain.home import Home
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.build_limits import BuildLimits, build_limits
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.same_club import MOST_MORE, SameClub, same_club
from loftwright.evidence.visit import Beliefs

BUILT, TESTED = "Birch", "Ash"


@st.composite
def comparisons(draw: st.DrawFn) -> Comparison:
    """Draw a visit of three clubs, hit ten times each at least."""
    balls = made_balls(
        draw(st.integers(0, 10_000)),
        clubs=3,
        balls=draw(st.integers(30, 42)),
        delivery=draw(st.booleans()),
        effects=draw(st.floats(0.0, 6.0)),
    )
    names = balls.clubs
    traits = tuple(ClubTraits(head=f"head {one}", shaft=f"shaft {one}") for one in names)
    return compare(balls, Home(), Beliefs(traits=traits))


def said(comparison: Comparison, times: float = 1.0) -> SameClub:
    limits = build_limits(comparison, Tolerances())
    wider = BuildLimits(explained=limits.explained, margin=times * limits.margin)
    return same_club(comparison, wider, BUILT, TESTED)


@settings(max_examples=15)
@given(comparison=comparisons())
def test_an_answer_is_what_its_numbers_say(comparison: Comparison) -> None:
    found = said(comparison)
    differs = any(one.differs for one in found.numbers)
    within = all(one.within for one in found.numbers)
    assert (found.against is Against.NOT) is differs
    assert (found.against is Against.CONSISTENT) is (within and not differs)
    for one in found.numbers:
        assert 0.0 < one.explained < one.margin
        assert 0.0 <= one.belief <= 1.0


@settings(max_examples=15)
@given(comparison=comparisons())
def test_neither_club_is_favoured(comparison: Comparison) -> None:
    limits = build_limits(comparison, Tolerances())
    there, back = (
        same_club(comparison, limits, *pair) for pair in ((BUILT, TESTED), (TESTED, BUILT))
    )
    assert there.against is back.against
    assert there.more == back.more
    for one, other in zip(there.numbers, back.numbers, strict=True):
        assert abs(one.apart.mean + other.apart.mean) <= 1e-9 * max(1.0, abs(one.apart.mean))


@settings(max_examples=15)
@given(comparison=comparisons(), times=st.floats(1.0, 5.0))
def test_a_wider_margin_never_loosens_an_answer(comparison: Comparison, times: float) -> None:
    narrow, wide = said(comparison), said(comparison, times)
    kept = {one.name for one in narrow.numbers if one.within}
    assert kept <= {one.name for one in wide.numbers if one.within}
    if narrow.against is not Against.CANNOT_TELL:
        assert wide.against is narrow.against
    assert wide.more is None or 1 <= wide.more <= MOST_MORE
