"""The studio's web application: its pages, its door and its errors put together."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from importlib import import_module
from pkgutil import iter_modules
from threading import Event, Thread
from typing import Annotated, Final

from fastapi import APIRouter, FastAPI, Form, Request, Response
from fastapi.routing import APIRoute

from loftwright import __version__
from loftwright.services.evidence import Desk
from loftwright.services.pairing import Pairing
from loftwright.services.predicting import Predictor
from loftwright.services.shop_keeping import ShopKeeper
from loftwright.services.shop_work import ShopWork
from loftwright.services.studio import Studio
from loftwright.services.training_room import TrainingRoom
from loftwright.services.warm_up import warm_up
from loftwright.services.watching import Watches
from loftwright.web import assets, pages, pairing
from loftwright.web.answers import acted, inside
from loftwright.web.errors import add_error_answers
from loftwright.web.render import THEMES, shape_of
from loftwright.web.security import Access, Guard

_YEAR: Final = 365 * 24 * 3600
_FIRST_PAGES: Final = 0.5
"""Seconds that are left to the first pages before anything is loaded ahead."""

router = APIRouter(include_in_schema=False)


def create_app(
    studio: Studio,
    *,
    access: Access | None = None,
    routers: tuple[APIRouter, ...] | None = None,
) -> FastAPI:
    """Return the web application of a studio.

    Parameters
    ----------
    studio : Studio
    access : Access, optional
        Under which names it is reached; this machine's alone without it.
    routers : tuple of APIRouter, optional
        Pages beside those of the chassis; those of `web/pages` without it.
    """
    reached = access if access is not None else Access()
    letting_in = Pairing(studio.store, studio.hub, studio.now)
    app = FastAPI(
        title="Loftwright",
        version=__version__,
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=_closing(studio),
    )
    app.state.studio = studio
    app.state.desk = Desk()
    app.state.training = TrainingRoom(studio)
    app.state.access = reached
    app.state.pairing = letting_in
    app.state.watches = Watches(studio)
    app.state.shop_work = ShopWork(studio)
    everything = (
        *(router, assets.router, pairing.router),
        *(page_routers() if routers is None else routers),
    )
    for one in everything:
        app.include_router(one)
    app.state.pages = page_shapes(everything)
    add_error_answers(app)
    app.add_middleware(pairing.Door, access=reached, pairing=letting_in)
    app.add_middleware(Guard, access=reached)
    return app


def page_routers() -> tuple[APIRouter, ...]:
    """Return the router of every module of `web/pages`, in the order of their names."""
    names = sorted(module.name for module in iter_modules(pages.__path__))
    return tuple(import_module(f"{pages.__name__}.{name}").router for name in names)


def page_shapes(routers: tuple[APIRouter, ...]) -> frozenset[str]:
    """Return the address of every page, without the names of its parameters."""
    return frozenset(
        shape_of(route.path)
        for one in routers
        for route in one.routes
        if isinstance(route, APIRoute) and "GET" in (route.methods or ())
    )


@router.post("/theme")
def choose_theme(
    request: Request,
    theme: Annotated[str, Form()],
    back: Annotated[str, Form()] = "/",
) -> Response:
    """Keep the theme that this browser shows."""
    answer = acted(request, inside(back))
    answer.set_cookie(
        "theme",
        theme if theme in THEMES else "system",
        max_age=_YEAR,
        samesite="strict",
        path="/",
    )
    return answer


def _closing(studio: Studio) -> Callable[[FastAPI], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def life(app: FastAPI) -> AsyncIterator[None]:
        stop = Event()
        looking = Thread(target=_look, args=(app.state.watches, stop), daemon=True)
        looking.start()
        Thread(target=_warm, args=(stop,), daemon=True).start()
        predictor = Predictor(studio, app.state.desk)
        predicting = Thread(target=_predict, args=(predictor, stop), daemon=True)
        predicting.start()
        keeper = ShopKeeper(studio, app.state.desk)
        keeping = Thread(target=_keep, args=(keeper, stop), daemon=True)
        keeping.start()
        yield
        stop.set()
        predictor.wake()
        keeper.wake()
        predicting.join()
        keeping.join()
        looking.join()
        studio.hub.close()
        app.state.training.close()
        studio.store.close()

    return life


def _warm(stop: Event) -> None:
    """Warm up once the first pages are out, unless the application ends before."""
    if not stop.wait(_FIRST_PAGES):
        warm_up()


def _look(watches: Watches, stop: Event) -> None:
    """Look at watched folders until the application ends."""
    watches.resume()
    watches.run(stop)


def _predict(predictor: Predictor, stop: Event) -> None:
    """Predict the next ball of every fitting until the application ends."""
    predictor.resume()
    predictor.run(stop)


def _keep(keeper: ShopKeeper, stop: Event) -> None:
    """Keep the shop record until the application ends."""
    if not stop.wait(_FIRST_PAGES):
        keeper.resume()
        keeper.run(stop)
