"""A store with a long fitting, for measuring pages."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from loftwright.domain.acts import (
    Act,
    ClubJoined,
    HandedOver,
    Marked,
    Planned,
    ShotArrived,
    VisitOpened,
)
from loftwright.domain.fitting import ClubCard, DeviceCard, Mark, PlanCard
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.services.fittings import open_fitting
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.training.deal import DealOptions, deal

DEGREE = 0.017453292519943295


def filled_studio(folder: Path, *, clubs: int, balls: int, seed: int = 3) -> tuple[Studio, str]:
    """Return a studio whose one fitting holds so many clubs and balls, and the fitting's id."""
    studio = Studio(store=open_store(folder), folder=folder)
    studio.store.add_golfer(Golfer(id="bench"), Identity(name="Balthazar Plum (invented)"))
    fitting = open_fitting(studio, "bench", bay="Bay 1").id
    dealt = [
        shot for shot in deal(DealOptions(seed=seed, clubs=clubs, balls=balls)).shots if shot.read
    ]
    names = list(dict.fromkeys(shot.club for shot in dealt))
    at = datetime.now(UTC) - timedelta(hours=1)
    visit = VisitOpened(day=at.date(), bay="Bay 1", device=DeviceCard(name="meter"), warm_up=False)
    joined: list[Act] = [ClubJoined(club=name, card=card(name)) for name in names]
    plan = Planned(plan=PlanCard(sets=tuple((name, 3) for name in names * 20), seconds=36000.0))
    studio.store.append(fitting, [visit, *joined, plan], at=at, by="bench")
    for number, shot in enumerate(dealt):
        at += timedelta(seconds=20)
        told = {name: getattr(shot, name) for name in FIELDS if not name.startswith("strike")}
        acts: list[Act] = [HandedOver(club=shot.club), ShotArrived(numbers=ShotNumbers(**told))]
        if shot.strike_toe is not None and shot.strike_high is not None:
            acts.append(Marked(mark=Mark(toe=shot.strike_toe, high=shot.strike_high)))
        studio.store.append(fitting, acts, at=at, by="bench", key=f"fill-{number}")
    return studio, fitting


def card(name: str) -> ClubCard:
    """Return an invented club's card; its shaft's sample is `shaft-` and the name."""
    return ClubCard(
        assembly=f"assembly-{name}",
        head="Quillon Wayfarer",
        shaft=f"Thistledown {name}",
        head_piece="head",
        shaft_piece=f"shaft-{name}",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        length=1.149,
    )
