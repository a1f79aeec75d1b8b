"""A fitting's page head: the job drawn as a club with one station a step."""

from dataclasses import dataclass
from typing import Final

from fastapi import Request

from loftwright.bay.now import FittingNow
from loftwright.services.training_plays import is_training
from loftwright.web.render import has_page
from loftwright.web.state import studio_of
from loftwright.workshop.stages import stages_done

_STATIONS: Final = (
    ("Golfer", "golfer"),
    ("Plan", "plan"),
    ("Bay", "bay"),
    ("Evidence", "evidence"),
    ("Choice", "choice"),
    ("Report", "report"),
    ("Order", "order"),
    ("Build", "build"),
    ("Final check", "final-check"),
    ("Follow-up", "follow-up"),
)

_TRAINED: Final = frozenset({"bay", "evidence", "choice"})
"""Steps of a training case; its last one is the call."""

CALL: Final = "call"


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One step of a fitting.

    Attributes
    ----------
    path : str
        Address of its page; empty while there is none.
    state : {"done", "here", "later"}
    """

    name: str
    path: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A fitting's page head.

    Attributes
    ----------
    fitting : str
        Its id.
    golfer : str
        The golfer's name, on the grip.
    """

    fitting: str
    golfer: str
    invented: bool
    stations: tuple[Station, ...]


def job_of(request: Request, fitting: str, here: str) -> Job:
    """Return the head of a fitting's page.

    Parameters
    ----------
    request : Request
    fitting : str
        Its id.
    here : str
        The step of this page, as it stands in its address: golfer, plan, bay and so on.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    """
    studio = studio_of(request)
    opened = studio.store.fitting(fitting).value
    training = is_training(fitting)
    done = steps_done(studio.standing(fitting))
    if not training:
        done |= stages_done(studio.store.job_record(fitting))
    stations = [
        Station(
            name=name,
            path=f"/fittings/{fitting}/{step}"
            if has_page(request, f"/fittings/{{}}/{step}")
            else "",
            state="here" if step == here else "done" if step in done else "later",
        )
        for name, step in _STATIONS
        if not training or step in _TRAINED
    ]
    if training:
        state = "here" if here == CALL else "later"
        stations.append(Station(name="The call", path=f"/training/{fitting}", state=state))
    return Job(
        fitting=fitting,
        golfer=studio.store.identity(opened.golfer).name,
        invented=opened.invented,
        stations=tuple(stations),
    )


def steps_done(now: FittingNow) -> frozenset[str]:
    """Return the steps of a fitting that are behind it."""
    done = {"golfer"}
    if now.plan is not None:
        done.add("plan")
    if now.closed:
        done |= {"plan", "bay", "evidence", "choice"}
    return frozenset(done)
