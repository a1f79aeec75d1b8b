"""Strategies that draw whatever the acts of a fitting may tell."""

from dataclasses import fields

from hypothesis import strategies as st

from loftwright.domain import acts
from loftwright.domain.acts import Act
from loftwright.domain.device import Origin
from loftwright.domain.fitting import FARTHEST_MARK, ClubCard, DeviceCard, Mark, PlanCard, Strip
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.rack import SleeveSetting

texts = st.text(st.characters(codec="utf-8"), max_size=40)
numbers = st.floats(allow_nan=False, allow_infinity=False)
sequences = st.integers(0, 10**6)
marks = st.builds(
    Mark,
    toe=st.floats(-FARTHEST_MARK, FARTHEST_MARK),
    high=st.floats(-FARTHEST_MARK, FARTHEST_MARK),
    error=st.floats(1e-6, 0.05),
    words=texts,
)
settings_of_sleeve = st.builds(
    SleeveSetting,
    name=texts.filter(str.strip),
    bore=st.floats(0.0, 0.069),
    azimuth=numbers,
)
cards = st.builds(
    ClubCard,
    **dict.fromkeys(("assembly", "head", "shaft", "head_piece", "shaft_piece"), texts),
    **dict.fromkeys(("loft", "lie", "face", "length"), numbers),
    setting=texts,
    settings=st.lists(settings_of_sleeve, max_size=3).map(tuple),
    grip=texts,
    price=st.none() | st.integers(0, 10**9),
    measured=st.booleans(),
)
strips = st.builds(Strip, **{one.name: texts for one in fields(Strip)})
devices = st.builds(
    DeviceCard,
    name=texts,
    origins=st.dictionaries(texts, st.sampled_from(Origin), max_size=4),
    mark_error=numbers,
)
plans = st.builds(
    PlanCard,
    sets=st.lists(st.tuples(texts, st.integers(1, 50)), max_size=6).map(tuple),
    seconds=st.none() | numbers,
    seed=st.integers(-(2**63), 2**63 - 1),
    blind=st.booleans(),
    given_up=st.lists(texts, max_size=3).map(tuple),
    in_order=st.booleans(),
)
balls = st.builds(ShotNumbers, **{name: st.none() | numbers for name in FIELDS})


@st.composite
def sets_marked(draw: st.DrawFn) -> acts.SetMarked:
    """Draw a set with no more marks than balls."""
    of = draw(st.lists(sequences, min_size=1, max_size=5))
    found = draw(st.lists(marks, min_size=1, max_size=len(of)))
    return acts.SetMarked(balls=tuple(of), marks=tuple(found))


@st.composite
def marks_joined(draw: st.DrawFn) -> acts.MarksJoined:
    """Draw as many balls as marks."""
    both = draw(st.lists(st.tuples(sequences, sequences), min_size=1, max_size=5))
    return acts.MarksJoined(
        marks=tuple(mark for mark, _ in both), balls=tuple(ball for _, ball in both)
    )


TOLD: dict[type, st.SearchStrategy[Act]] = {
    acts.VisitOpened: st.builds(
        acts.VisitOpened,
        day=st.dates(),
        bay=texts,
        device=devices,
        strip=strips,
        warm_up=st.booleans(),
    ),
    acts.WarmUpDone: st.builds(acts.WarmUpDone, unseen=sequences),
    acts.ClubJoined: st.builds(acts.ClubJoined, club=texts, card=cards),
    acts.ClubDropped: st.builds(acts.ClubDropped, club=texts),
    acts.Vetoed: st.builds(acts.Vetoed, club=texts),
    acts.Planned: st.builds(acts.Planned, plan=plans),
    acts.HandedOver: st.builds(acts.HandedOver, club=texts),
    acts.SettingSeen: st.builds(acts.SettingSeen, setting=texts),
    acts.StripChanged: st.builds(acts.StripChanged, strip=strips),
    acts.ShotArrived: st.builds(
        acts.ShotArrived,
        numbers=balls,
        **dict.fromkeys(("club", "line", "time", "device", "source"), texts),
        after=st.none() | sequences,
    ),
    acts.NotRead: st.builds(acts.NotRead, after=st.none() | sequences, club=texts),
    acts.Marked: st.builds(acts.Marked, mark=marks, ball=st.none() | sequences),
    acts.NoMark: st.builds(acts.NoMark, ball=sequences),
    acts.SetMarked: sets_marked(),
    acts.MarksJoined: marks_joined(),
    acts.MarksShifted: st.builds(acts.MarksShifted, first=sequences, by=st.sampled_from([1, -1])),
    acts.MarkDropped: st.builds(acts.MarkDropped, mark=sequences),
    acts.NotOurs: st.builds(acts.NotOurs, ball=sequences),
    acts.OddBall: st.builds(acts.OddBall, ball=sequences),
    acts.RunMoved: st.builds(acts.RunMoved, first=sequences, last=sequences, club=texts),
    acts.RunSet: st.builds(acts.RunSet, first=sequences, last=sequences, setting=texts),
    acts.Felt: st.builds(acts.Felt, club=texts, place=st.floats(0.0, 1.0), word=texts),
    acts.Rested: st.just(acts.Rested()),
    acts.PainSaid: st.just(acts.PainSaid()),
    acts.Revealed: st.just(acts.Revealed()),
    acts.Closed: st.just(acts.Closed()),
    acts.Undone: st.builds(acts.Undone, act=sequences),
}
