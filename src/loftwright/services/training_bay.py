"""A training case in the bay: opened, hit ball by ball, called, and then looked back on."""

from collections import Counter
from collections.abc import Sequence
from typing import Final

import numpy as np

from loftwright.bay.replay import replay
from loftwright.constants import DEGREE
from loftwright.domain.acts import (
    Act,
    Closed,
    ClubJoined,
    Entry,
    HandedOver,
    Marked,
    Planned,
    ShotArrived,
    Undone,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.fitting import Fitting, Mark, PlanCard, Strip
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.names import OWN
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel
from loftwright.errors import ConflictError, InputError
from loftwright.evidence.plan import PlanRequest, make_plan
from loftwright.evidence.power import SCATTER
from loftwright.services.acting import act
from loftwright.services.fittings import USUAL_DIFFERENCE
from loftwright.services.golfers import add_golfer
from loftwright.services.rack import card_of
from loftwright.services.rack_adding import (
    NewClub,
    NewHead,
    NewShaft,
    OwnClub,
    add_head,
    add_own_club,
    add_shaft,
)
from loftwright.services.shots import Incoming, Taken, take
from loftwright.services.studio import Studio, new_id
from loftwright.services.training_plays import Play, keep_play, new_training_id, read_play
from loftwright.services.training_room import BAY, METER
from loftwright.training.case import CasePlayer, Hit
from loftwright.training.case_files import case_named
from loftwright.training.debrief import TOO_CLOSE

SOURCE: Final = "virtual"
PLAYER: Final = "virtual golfer"
WARM_UP_BALLS: Final = 4
MAKER: Final = "Nullmoor (invented)"
NOTHING_READ: Final = "the device read nothing; a mark waits on the face"

_DROPPED: Final = "dropped:"
_MARKS: Final = frozenset({"strike_toe", "strike_high"})
_PLANNING: Final = 3
_STRIP: Final = Strip(
    ball="premium, new", tee="40 mm", surface="mat", place="indoors", treatment="spray"
)


def open_case(studio: Studio, case: str, *, seed: int | None = None, by: str = "") -> str:
    """Open a case in the training studio, warm up, and return its fitting.

    Parameters
    ----------
    studio : Studio
        The training one: never the shop's.
    case : str
        Its name.
    seed : int, optional
        The case's own without it.
    by : str
        Who trains.

    Raises
    ------
    InputError
        For an unknown case, or a seed that is none.
    """
    player = CasePlayer(case_named(case), seed)
    play = Play(case=case, seed=player.seed)
    golfer, clubs = _people_and_clubs(studio, player)
    rack = studio.store.rack()
    fitting = Fitting(
        id=new_training_id(), golfer=golfer.id, opened=studio.today(), bay=BAY, invented=True
    )
    keep_play(studio, fitting.id, play)
    studio.store.open_fitting(fitting)
    acts: list[Act] = [
        VisitOpened(day=studio.today(), bay=BAY, device=METER, strip=_STRIP),
        *(ClubJoined(club=name, card=card_of(rack, one)) for name, one in clubs.items()),
        HandedOver(club=OWN),
    ]
    act(studio, fitting.id, acts, by=by)
    for swing in range(WARM_UP_BALLS):
        _arrive(studio, fitting.id, player.warm_up(swing), new_id(), by)
    planned = Planned(plan=plan_of(player))
    act(studio, fitting.id, [WarmUpDone(), planned], by=by)
    return fitting.id


def plan_of(player: CasePlayer) -> PlanCard:
    """Return the order of play that hangs in the bay for a case."""
    case, names = player.case, list(player.clubs)
    rng = np.random.default_rng([player.seed, _PLANNING])
    if case.order == "blocks":
        each = case.balls // len(names)
        sets = tuple((name, each) for name in names)
    else:
        scatter = SCATTER.get(case.ability, SCATTER["mid"])
        request = PlanRequest(
            clubs=len(names), balls=case.balls, difference=USUAL_DIFFERENCE, scatter=scatter
        )
        plan = make_plan(request, rng)
        name_of = dict(zip(plan.clubs, names, strict=True))
        sets = tuple((name_of[one.club], one.balls) for one in plan.sets)
    return PlanCard(sets=sets, seconds=case.seconds, seed=player.seed)


def training_ball(studio: Studio, fitting: str, *, by: str = "", key: str = "") -> Taken:
    """Let the golfer of a case hit one ball with the club in hand, and read its mark.

    A mark is read as a fitter reads it: it goes to the newest ball without one. A ball that the
    device does not read leaves its mark waiting and nothing else.

    Parameters
    ----------
    studio : Studio
        The training one.
    fitting : str
    by : str
    key : str
        Idempotency key; the same key hits once.

    Raises
    ------
    InputError
        If no club is in hand.
    ConflictError
        If the fitting is closed.
    """
    wanted = key or new_id()
    with studio.lock:
        record = studio.record(fitting)
        now = studio.standing(fitting)
        if any(one.key == f"{_DROPPED}{wanted}" for one in record):
            return _unread(fitting, now.in_hand, record, repeated=True)
        play = read_play(studio, fitting)
        if now.closed or play.call:
            raise ConflictError(
                "this fitting is closed and takes no balls",
                place=fitting,
                mend="Look at what was true, or open another case.",
            )
        if now.in_hand is None:
            raise InputError("no club is in hand", place="club", mend="Hand one over first.")
        hit_with = clubs_hit(record)
        after = len(hit_with)
        ball = Counter(hit_with)[now.in_hand] + 1
        hit = play.player().hit(now.in_hand, ball, WARM_UP_BALLS + after, after + 1)
        if hit.read or any(one.key == wanted for one in record):
            return _arrive(studio, fitting, hit, wanted, by)
        if hit.strike is not None:
            _mark(studio, fitting, hit, by, key=f"{_DROPPED}{wanted}")
        return _unread(fitting, now.in_hand, studio.record(fitting), repeated=False)


def clubs_hit(record: Sequence[Entry]) -> tuple[str, ...]:
    """Return the club in hand at every swing after the warm-up, read by the device or not.

    What was corrected afterwards does not matter: a golfer's next ball is another one.
    """
    hit: list[str] = []
    in_hand, warm = "", False
    for place, entry in enumerate(record):
        match entry.act:
            case WarmUpDone():
                warm = True
            case HandedOver(club=club):
                in_hand = club
            case Undone():
                in_hand = replay(record[: place + 1]).in_hand or ""
            case ShotArrived(source=source) if source == SOURCE and warm:
                hit.append(in_hand)
            case Marked() if entry.key.startswith(_DROPPED):
                hit.append(in_hand)
            case _:
                pass
    return tuple(hit)


def swings_dropped(record: Sequence[Entry]) -> int:
    """Return how many swings the device did not read."""
    return sum(entry.key.startswith(_DROPPED) for entry in record)


def call_case(studio: Studio, fitting: str, call: str, *, by: str = "") -> Play:
    """Call the club of a case, once, and close its fitting.

    Parameters
    ----------
    studio : Studio
        The training one.
    fitting : str
    call : str
        A club of the fitting, or `too close`.
    by : str

    Raises
    ------
    InputError
        If the case has no such club, or not a ball was hit.
    ConflictError
        If another club was called already.
    """
    with studio.lock:
        play = read_play(studio, fitting)
        if play.call:
            if play.call != call:
                raise ConflictError(
                    f"{play.call} was called already",
                    place="call",
                    mend="Look at what was true; open the case again for another call.",
                )
            return play
        now = studio.standing(fitting)
        names = [club.name for club in now.clubs]
        if call not in {*names, TOO_CLOSE}:
            raise InputError(
                f"{call!r} is no club of this case",
                place="call",
                mend=f"Call {', '.join(names)} or {TOO_CLOSE}.",
            )
        if not now.balls:
            raise InputError(
                "no ball was hit yet", place="call", mend="Let the golfer hit with two clubs."
            )
        called = Play(case=play.case, seed=play.seed, call=call, upto=now.upto)
        keep_play(studio, fitting, called)
        if not now.closed:
            act(studio, fitting, [Closed()], by=by)
    return called


def _people_and_clubs(studio: Studio, player: CasePlayer) -> tuple[Golfer, dict[str, Assembly]]:
    """Write golfer and clubs down in the training rack; return the clubs by their names."""
    case = player.case
    own = case.clubs[0]
    golfer = add_golfer(
        studio,
        Golfer(id="", hand=case.hand, goal=case.goal, ability=case.ability),
        Identity(name=f"{case.golfer} (invented)"),
    )
    club = OwnClub(
        loft=own.loft,
        length=own.length,
        head="Old Harrow (invented)",
        shaft=own.shaft,
        shaft_mass=own.shaft_mass,
        label=own.label,
    )
    owner = add_own_club(studio, golfer, club)
    studio.store.change_golfer(owner, version=studio.store.golfer(golfer.id).version)
    clubs = {OWN: studio.store.rack().assemblies[owner.own or ""]}
    heads: dict[float, Piece] = {}
    for name, one in player.clubs.items():
        if name == OWN:
            continue
        if one.loft not in heads:
            model = HeadModel(
                id="",
                maker=MAKER,
                name=f"Trial {one.loft / DEGREE:g}",
                loft=one.loft,
                hand=case.hand,
            )
            heads[one.loft] = add_head(studio, NewHead(model=model, place=BAY))
        shaft = ShaftModel(
            id="", maker=MAKER, name=one.shaft, paper_mass=one.shaft_mass, paper_label=one.label
        )
        whole = NewClub(head=heads[one.loft].id, length=one.length)
        _, made = add_shaft(studio, NewShaft(model=shaft, mass=one.shaft_mass, club=whole))
        if made is not None:
            clubs[name] = made
    return owner, clubs


def _arrive(studio: Studio, fitting: str, hit: Hit, key: str, by: str) -> Taken:
    told = {name: getattr(hit.shot, name) for name in FIELDS if name not in _MARKS}
    ball = Incoming(numbers=ShotNumbers(**told), key=key, device=PLAYER)
    taken = take(studio, fitting, ball, source=SOURCE, by=by or PLAYER)
    if not taken.repeated:
        _mark(studio, fitting, hit, by)
    return taken


def _mark(studio: Studio, fitting: str, hit: Hit, by: str, *, key: str = "") -> None:
    if hit.strike is not None:
        mark = Mark(toe=hit.strike[0], high=hit.strike[1])
        act(studio, fitting, [Marked(mark=mark)], by=by or PLAYER, key=key)


def _unread(fitting: str, club: str | None, record: tuple[Entry, ...], *, repeated: bool) -> Taken:
    return Taken(
        fitting=fitting,
        sequence=record[-1].sequence,
        number=0,
        club=club,
        repeated=repeated,
        problems=(NOTHING_READ,),
    )
