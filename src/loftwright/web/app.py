"""The studio's web application: its pages, its door and its errors put together."""

import logging
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from functools import partial
from importlib import import_module
from pkgutil import iter_modules
from threading import Event, Thread
from typing import Annotated, Final

from fastapi import APIRouter, FastAPI, Form, Request, Response
from fastapi.routing import APIRoute

from loftwright import __version__
from loftwright.services.daily_backup import DailyBackup
from loftwright.services.day_limits import DayLimits
from loftwright.services.diagnostics import Bundles
from loftwright.services.doorkeeping import Doorkeeper
from loftwright.services.evidence import Desk
from loftwright.services.health import Pulse
from loftwright.services.openings import Openings
from loftwright.services.pairing import Pairing
from loftwright.services.pin_lock import PinLocks
from loftwright.services.predicting import Predictor
from loftwright.services.program_log import ProgramLog
from loftwright.services.serving_log import tell_start
from loftwright.services.shop_keeping import ShopKeeper
from loftwright.services.shop_work import ShopWork
from loftwright.services.studio import Studio
from loftwright.services.summing import sum_up
from loftwright.services.training_room import TrainingRoom
from loftwright.services.tries import Tries
from loftwright.services.warm_up import warm_up
from loftwright.services.watching import Watches
from loftwright.services.workers import Worker
from loftwright.web import assets, lock, pages, pairing
from loftwright.web.answers import Back, acted, inside
from loftwright.web.door import Door, Doors
from loftwright.web.errors import add_error_answers
from loftwright.web.journal import Journal
from loftwright.web.render import THEMES, shape_of
from loftwright.web.security import Access, Guard
from loftwright.web.sought import Sought

_YEAR: Final = 365 * 24 * 3600
_FIRST_PAGES: Final = 0.5
_SUMS: Final = 5.0
"""Seconds that are left to the first pages before anything is loaded or summed up behind them."""

log: Final = logging.getLogger(__name__)
router = APIRouter(include_in_schema=False)


def create_app(
    studio: Studio,
    *,
    access: Access | None = None,
    routers: tuple[APIRouter, ...] | None = None,
    program_log: ProgramLog | None = None,
    tries: Tries | None = None,
    daily: DailyBackup | None = None,
) -> FastAPI:
    """Return the web application of a studio.

    Parameters
    ----------
    studio : Studio
    access : Access, optional
        Under which names it is reached; this machine's alone without it.
    routers : tuple of APIRouter, optional
        Pages beside those of the chassis; those of `web/pages` without it.
    program_log : ProgramLog, optional
        What writes the program's log, for what is said of its health.
    tries : Tries, optional
        Counts what an address may do so often; a fresh one without it.
    daily : DailyBackup, optional
        Backs the studio up once a day while it is served; nothing does without it.
    """
    reached = access if access is not None else Access()
    app = FastAPI(
        title="Loftwright",
        version=__version__,
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=_closing(studio, daily),
    )
    app.state.studio = studio
    app.state.desk = Desk()
    studio.hub.listen(app.state.desk.heard)
    app.state.training = TrainingRoom(studio)
    app.state.watches = Watches(studio)
    app.state.shop_work = ShopWork(studio)
    everything = (
        *(router, assets.router, pairing.router, lock.router),
        *(page_routers() if routers is None else routers),
    )
    for one in everything:
        app.include_router(one)
    app.state.pages = page_shapes(everything)
    app.state.asked = tuple(_routes(everything))
    app.state.pulse = Pulse(studio, program_log)
    app.state.bundles = Bundles()
    app.state.sought = Sought()
    add_error_answers(app)
    app.add_middleware(Door, doors=_doors(app, studio, reached, tries))
    app.add_middleware(Guard, access=reached)
    app.add_middleware(Journal)
    return app


def _doors(app: FastAPI, studio: Studio, access: Access, tries: Tries | None) -> Doors:
    """Put what the door asks where pages find it too."""
    letting_in = Pairing(studio.store, studio.hub, studio.now)
    doors = Doors(
        access=access,
        pairing=letting_in,
        locks=PinLocks(studio.store, studio.now, letting_in.changed),
        tries=Tries() if tries is None else tries,
        openings=Openings(studio),
    )
    app.state.access = doors.access
    app.state.pairing = doors.pairing
    app.state.locks = doors.locks
    app.state.tries = doors.tries
    app.state.openings = doors.openings
    return doors


def page_routers() -> tuple[APIRouter, ...]:
    """Return the router of every module of `web/pages`, in the order of their names."""
    names = sorted(module.name for module in iter_modules(pages.__path__))
    return tuple(import_module(f"{pages.__name__}.{name}").router for name in names)


def page_shapes(routers: tuple[APIRouter, ...]) -> frozenset[str]:
    """Return the address of every page, without the names of its parameters."""
    return frozenset(
        shape_of(route.path) for route in _routes(routers) if "GET" in (route.methods or ())
    )


def _routes(routers: tuple[APIRouter, ...]) -> Iterator[APIRoute]:
    return (route for one in routers for route in one.routes if isinstance(route, APIRoute))


@router.post("/theme")
def choose_theme(
    request: Request,
    theme: Annotated[str, Form(max_length=20)],
    back: Back = "/",
) -> Response:
    """Keep the theme that this browser shows."""
    answer = acted(request, inside(back))
    answer.set_cookie(
        "theme",
        theme if theme in THEMES else "system",
        max_age=_YEAR,
        samesite="strict",
        secure=request.url.scheme == "https",
        httponly=True,
        path="/",
    )
    return answer


def _closing(
    studio: Studio, daily: DailyBackup | None
) -> Callable[[FastAPI], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def life(app: FastAPI) -> AsyncIterator[None]:
        stop = Event()
        predictor = Predictor(studio, app.state.desk)
        keeper = ShopKeeper(studio, app.state.desk)
        doorkeeper = Doorkeeper(app.state.pairing, app.state.locks, studio.hub)
        watches: Watches = app.state.watches
        begun = partial(_worker, studio, stop)
        workers = [
            begun("watches", watches.run, first=watches.resume),
            begun("predictor", predictor.run, first=predictor.resume),
            begun("keeper", keeper.run, first=keeper.resume, after=_FIRST_PAGES),
            begun("door", doorkeeper.run),
            begun("limits", DayLimits(studio).run),
            begun("sums", partial(sum_up, studio), after=_SUMS),
        ]
        if daily is not None:
            workers.append(begun("backup", daily.run))
        tell_start(studio)
        for one in workers:
            one.start()
        app.state.pulse.workers = tuple(workers)
        Thread(target=_warm, args=(stop,), name="warm-up", daemon=True).start()
        yield
        stop.set()
        doorkeeper.wake()
        predictor.wake()
        keeper.wake()
        for one in workers:
            one.join()
        app.state.openings.close()
        if daily is not None:
            daily.make_if_due()
        studio.hub.close()
        app.state.training.close()
        studio.store.close()
        log.info("stopped")

    return life


def _worker(
    studio: Studio,
    stop: Event,
    name: str,
    run: Callable[[Event], None],
    *,
    first: Callable[[], None] | None = None,
    after: float = 0.0,
) -> Worker:
    behind = partial(run, stop)
    return Worker(name, behind, first=first, stop=stop, clock=studio.clock, after=after)


def _warm(stop: Event) -> None:
    """Warm up once the first pages are out, unless the application ends before."""
    if not stop.wait(_FIRST_PAGES):
        warm_up()
