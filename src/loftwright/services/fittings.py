"""Fittings: opened, planned, planned again when late, and gone on with another day."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.bay.now import FittingNow
from loftwright.constants import YARD
from loftwright.domain.acts import Act, ClubJoined, Planned, VisitOpened
from loftwright.domain.fitting import ClubCard, DeviceCard, Fitting, PlanCard, Strip
from loftwright.domain.names import OWN, TREES
from loftwright.domain.rack import Assembly
from loftwright.errors import InputError
from loftwright.evidence.plan import Pace, Plan, PlanRequest, make_plan
from loftwright.evidence.power import SCATTER
from loftwright.report.plan_words import given_up
from loftwright.services.acting import act
from loftwright.services.measuring import measured
from loftwright.services.one_golfer import first_record
from loftwright.services.rack import card_of
from loftwright.services.shop_beliefs import newest_version
from loftwright.services.studio import Studio, new_id

MOST_SEED: Final = 2**32
USUAL_DIFFERENCE: Final = 5.0 * YARD
USUAL_BALLS: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a fitter wants of a plan.

    Attributes
    ----------
    assemblies : tuple of str
        The shop's clubs to be hit; the golfer's own joins by itself.
    seconds : float, optional
        From now to the golfer's going, with warm-up and talk still to come.
    blind : bool
        Names are dealt at random.
    """

    assemblies: tuple[str, ...]
    balls: int = USUAL_BALLS
    seconds: float | None = None
    blind: bool = False


def open_fitting(
    studio: Studio,
    golfer: str,
    *,
    bay: str,
    fitter: str = "",
    partner: str | None = None,
    invented: bool = False,
) -> Fitting:
    """Open a fitting for a golfer and return it.

    With a partner's fitting the two golfers take turns: each gets a record and a report.
    """
    fitting = Fitting(
        id=new_id(),
        golfer=first_record(studio, golfer),
        opened=studio.today(),
        bay=bay,
        fitter=fitter,
        partner=partner,
        invented=invented,
    )
    studio.store.open_fitting(fitting)
    if partner is not None:
        other = studio.store.fitting(partner)
        studio.store.change_fitting(
            replace(other.value, partner=fitting.id), version=other.version
        )
    return fitting


def open_visit(
    studio: Studio,
    fitting: str,
    *,
    device: DeviceCard,
    strip: Strip | None = None,
    warm_up: bool = True,
    by: str = "",
    key: str = "",
) -> FittingNow:
    """Open a visit today: the first, or another on a later day."""
    opened = studio.store.fitting(fitting).value
    visit = VisitOpened(
        day=studio.today(),
        bay=opened.bay,
        device=device,
        strip=strip or Strip(),
        warm_up=warm_up,
        learned=newest_version(studio, invented=opened.invented),
    )
    return act(studio, fitting, [visit], by=by, key=key)


def plan_visit(
    studio: Studio,
    fitting: str,
    wish: Wish,
    *,
    by: str = "",
    key: str = "",
    seed: int | None = None,
    pace: Pace | None = None,
    seen: int | None = None,
) -> FittingNow:
    """Plan a visit, or plan it again: clubs keep their names, new ones join.

    Parameters
    ----------
    studio : Studio
    fitting : str
    wish : Wish
    by, key : str
        Who acts, and under which key it is written once.
    seed : int, optional
        Gives the same order again.
    pace : Pace, optional
        How long things take; without talk and warm-up where they are over.
    seen : int, optional
        Sequence of the last entry that the planning page showed.

    Raises
    ------
    InputError
        If balls, minutes and clubs cannot make a comparison.
    ConflictError
        If somebody else planned since the page was drawn.
    """
    opened = studio.store.fitting(fitting).value
    golfer = studio.store.golfer(opened.golfer).value
    now = studio.standing(fitting)
    rack = studio.store.rack()
    known = measured(studio)
    cards = [(OWN, card_of(rack, rack.assemblies[golfer.own], known))] if golfer.own else []
    wanted = [card_of(rack, _known(rack.assemblies, one), known) for one in wish.assemblies]
    chosen = secrets.randbelow(MOST_SEED) if seed is None else seed
    rng = np.random.default_rng(chosen)
    named = [*cards, *_named(wanted, now, rng, blind=wish.blind)]
    plan = make_plan(
        PlanRequest(
            clubs=len(named),
            balls=wish.balls,
            difference=USUAL_DIFFERENCE,
            scatter=SCATTER.get(golfer.ability or "mid", SCATTER["mid"]),
            available=wish.seconds,
            pace=pace or Pace(),
        ),
        rng,
    )
    acts: list[Act] = [
        ClubJoined(club=name, card=card) for name, card in named if now.club(name) is None
    ]
    acts.append(Planned(plan=_card(plan, [name for name, _ in named], chosen, wish)))
    return act(studio, fitting, acts, by=by, key=key, seen=seen)


def join_club(
    studio: Studio, fitting: str, assembly: str, *, by: str = "", key: str = ""
) -> FittingNow:
    """Let a club join in the middle of a fitting."""
    now = studio.standing(fitting)
    rack = studio.store.rack()
    card = card_of(rack, _known(rack.assemblies, assembly), measured(studio))
    ((name, _),) = _named([card], now, None, blind=False)
    return act(studio, fitting, [ClubJoined(club=name, card=card)], by=by, key=key)


def _known(assemblies: dict[str, Assembly], wanted: str) -> Assembly:
    if wanted not in assemblies:
        raise InputError(
            f"the rack has no club {wanted!r}", place="clubs", mend="Choose clubs of the rack."
        )
    return assemblies[wanted]


def _named(
    cards: Sequence[ClubCard], now: FittingNow, rng: np.random.Generator | None, *, blind: bool
) -> list[tuple[str, ClubCard]]:
    """Give every card its name: the one it has, else the next tree that was never used."""
    known = {club.card.assembly: club.name for club in now.clubs}
    free = [tree for tree in TREES if now.club(tree) is None]
    if blind and rng is not None:
        free = [free[index] for index in rng.permutation(len(free))]
    if sum(card.assembly not in known for card in cards) > len(free):
        raise InputError(
            f"{len(cards)} clubs are more than a fitting has names for",
            place="clubs",
            mend=f"A fitting takes {len(TREES)} clubs besides the golfer's own.",
        )
    names = iter(free)
    return [
        (known[card.assembly] if card.assembly in known else next(names), card) for card in cards
    ]


def _card(plan: Plan, names: list[str], seed: int, wish: Wish) -> PlanCard:
    """Return the plan under the fitting's own names."""
    name_of = dict(zip(plan.clubs, names, strict=False))
    return PlanCard(
        sets=tuple((name_of[one.club], one.balls) for one in plan.sets),
        seconds=wish.seconds,
        seed=seed,
        blind=wish.blind,
        given_up=tuple(given_up(plan)),
    )
