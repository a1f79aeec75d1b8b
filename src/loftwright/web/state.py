"""What a handler takes from its request: the studio, the desk, who acts, and under which key."""

from typing import Annotated

from fastapi import Depends, Form, Header, Request

from loftwright.services.evidence import Desk
from loftwright.services.shop_work import ShopWork
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.services.training_room import TrainingRoom
from loftwright.web.sought import Sought


def studio_of(request: Request) -> Studio:
    """Return the studio that holds what the address names: the shop's, or the training room."""
    if is_training(request.path_params.get("fitting", "")):
        return room_of(request).studio()
    studio: Studio = request.app.state.studio
    studio.look_for_erased()
    return studio


def room_of(request: Request) -> TrainingRoom:
    """Return the training room of this application."""
    room: TrainingRoom = request.app.state.training
    return room


def desk_of(request: Request) -> Desk:
    """Return where the newest comparisons are kept."""
    desk: Desk = request.app.state.desk
    return desk


def work_of(request: Request) -> ShopWork:
    """Return where work on the shop record is done."""
    work: ShopWork = request.app.state.shop_work
    return work


def sought_of(request: Request) -> Sought:
    """Return where names that were looked for are kept in mind."""
    sought: Sought = request.app.state.sought
    return sought


def actor(request: Request) -> str:
    """Return the name of the device that acts; empty on the main screen."""
    device = getattr(request.state, "device", None)
    return str(device.name) if device is not None else ""


def act_key(
    key: Annotated[str, Form(max_length=64)] = "",
    idempotency_key: Annotated[str, Header(max_length=64)] = "",
) -> str:
    """Return the key under which an act is written once, however often it is sent."""
    return idempotency_key or key


Here = Annotated[Studio, Depends(studio_of)]
Room = Annotated[TrainingRoom, Depends(room_of)]
AtDesk = Annotated[Desk, Depends(desk_of)]
AtWork = Annotated[ShopWork, Depends(work_of)]
LookedFor = Annotated[Sought, Depends(sought_of)]
Actor = Annotated[str, Depends(actor)]
ActKey = Annotated[str, Depends(act_key)]
Seen = Annotated[int | None, Form(ge=0, description="Last entry that the page showed.")]
