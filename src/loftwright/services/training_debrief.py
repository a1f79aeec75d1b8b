"""Looks back on a called case: what stood after every set, and what one event did to it."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.replay import replay
from loftwright.domain.acts import Entry, HandedOver, NotOurs
from loftwright.domain.golfer import Golfer
from loftwright.errors import ConflictError
from loftwright.evidence.budget import Budget
from loftwright.evidence.result import Against, Decision, State
from loftwright.physics.sleeve import Convention
from loftwright.services.evidence import compare_clubs, weigh
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.services.training_bay import swings_dropped
from loftwright.services.training_plays import Play, read_play
from loftwright.training.case import Case, CasePlayer, Spell
from loftwright.training.debrief import Debrief, Snapshot, Without, debrief, true_clubs

MOST_SNAPSHOTS: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LookBack:
    """A called case, whole.

    Attributes
    ----------
    case : Case
    seed : int
    debrief : Debrief
    dropped, noted : int
        Swings that the device did not read, and how many of them were said to be.
    waiting : int
        Marks that had no ball at the call.
    cold : dict of str to float
        By club, how much head speed the golfer still lacked on average with its balls [m s^-1].
    """

    case: Case
    seed: int
    debrief: Debrief
    dropped: int
    noted: int
    waiting: int
    cold: dict[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Eye:
    """With what a record is looked at."""

    golfer: Golfer
    convention: Convention

    def decision(self, now: FittingNow) -> Decision | None:
        """Return what the balls say of a fitting as it stands."""
        found = compare_clubs(now, self.golfer, self.convention)
        return weigh(found, self.golfer, Budget()).decision


def look_back(studio: Studio, fitting: str) -> LookBack:
    """Return what was true of a case and what its call came to.

    Parameters
    ----------
    studio : Studio
        The training one.
    fitting : str

    Raises
    ------
    ConflictError
        If nothing was called yet: until then nothing of the truth is told.
    """
    play = read_play(studio, fitting)
    if not play.call:
        raise ConflictError(
            "nothing was called yet, so what was true stays hidden",
            place=fitting,
            mend="Call a club, or that it is too close to call.",
        )
    golfer = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    eye = _Eye(golfer=golfer, convention=read_settings(studio).settings.convention)
    record = tuple(one for one in studio.record(fitting) if one.sequence <= play.upto)
    player = play.player()
    now = replay(record)
    return LookBack(
        case=player.case,
        seed=play.seed,
        debrief=_debrief(play, player, record, golfer, eye),
        dropped=swings_dropped(record),
        noted=sum(ball.numbers is None for ball in now.balls),
        waiting=len(now.waiting),
        cold=_cold(now, player.case),
    )


def _cold(now: FittingNow, case: Case) -> dict[str, float]:
    lacked: dict[str, list[float]] = {}
    for ball in now.balls:
        lacked.setdefault(ball.club or "", []).append(
            -case.warm_up.speed * case.warm_up.left(ball.order)
        )
    return {club: fmean(speeds) for club, speeds in lacked.items()}


def _debrief(
    play: Play, player: CasePlayer, record: tuple[Entry, ...], golfer: Golfer, eye: _Eye
) -> Debrief:
    return debrief(
        true_clubs(player, golfer.home),
        play.call,
        snapshots(record, eye),
        tuple(
            found
            for spell in player.case.spells
            if (found := _without(spell, player, record, eye)) is not None
        ),
    )


def snapshots(record: tuple[Entry, ...], eye: _Eye) -> tuple[Snapshot, ...]:
    """Return what stood after each set, by the record as it stood then.

    Notes
    -----
    A set ends where another club is handed over. Of more than sixteen sets neighbours are taken
    together.
    """
    ends = [
        place for place, entry in enumerate(record) if place and isinstance(entry.act, HandedOver)
    ]
    standing = [replay(record[:end]) for end in (*ends, len(record))]
    grown = [standing[0]] if standing[0].balls else []
    for now in standing[1:]:
        if len(now.balls) > (len(grown[-1].balls) if grown else 0):
            grown.append(now)
    step = -(-len(grown) // MOST_SNAPSHOTS)
    kept = grown[::-1][::step][::-1] if grown else []
    first = [1, *(len(now.balls) + 1 for now in kept)]
    return tuple(_snapshot(now, start, eye) for now, start in zip(kept, first, strict=False))


def _snapshot(now: FittingNow, first: int, eye: _Eye) -> Snapshot:
    decision = eye.decision(now)
    clubs = dict.fromkeys(ball.club or "" for ball in now.balls[first - 1 :])
    found = decision.clubs if decision else ()
    chances = {one.club: one.p_best for one in found if one.p_best is not None}
    return Snapshot(
        first=first,
        last=len(now.balls),
        club=" and ".join(clubs),
        state=decision.state if decision else State.TOO_FEW,
        pick=next(iter(chances), None),
        chances=chances,
        plain={one.club: one.plain_total for one in found if one.plain_total is not None},
        said={one.club: one.value for one in found if one.value is not None},
        against_own=decision is None or decision.against is Against.OWN,
    )


def _without(
    spell: Spell, player: CasePlayer, record: tuple[Entry, ...], eye: _Eye
) -> Without | None:
    """Return what would stand without the balls of a spell; None if none was hit."""
    club = next(name for name, one in player.clubs.items() if one.shaft == spell.shaft)
    now = replay(record)
    hit: Sequence[Swing] = [ball for ball in now.balls if ball.club == club]
    struck = hit[spell.first - 1 : spell.last]
    if not struck:
        return None
    last = record[-1]
    acts = [NotOurs(ball=ball.sequence) for ball in struck]
    extra = tuple(
        Entry(
            sequence=last.sequence + place, at=last.at, by="", act=one, group=last.sequence, key=""
        )
        for place, one in enumerate(acts, start=1)
    )
    rest = replay((*record, *extra))
    found = _snapshot(rest, 1, eye) if rest.balls else None
    return Without(
        club=club,
        balls=tuple(ball.number for ball in struck),
        toe=spell.toe,
        high=spell.high,
        pick=found.pick if found else None,
        plain_pick=found.plain_pick if found else None,
    )
