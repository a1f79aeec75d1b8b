"""Every route of the web application, as the application itself takes them in."""

import re
from functools import cache

import pytest
from fastapi import APIRouter, FastAPI
from fastapi.routing import APIRoute
from starlette.routing import Route as PlainRoute

from loftwright.web.app import create_app
from studios import studio_in_memory

Route = tuple[str, str]
"""Method and address, with the names of its parameters in braces."""

CHANGING = frozenset({"POST", "PUT", "PATCH", "DELETE"})


@cache
def all_routes() -> frozenset[Route]:
    """Return every route that `create_app` takes in, by itself or in a router."""
    taken: list[APIRouter] = []
    take = FastAPI.include_router

    def noted(self: FastAPI, router: APIRouter, *args: object, **more: object) -> None:
        taken.append(router)
        take(self, router, *args, **more)  # type: ignore[arg-type]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(FastAPI, "include_router", noted)
        app = create_app(studio_in_memory())
    found: set[Route] = set()
    for one in (*app.routes, *(route for router in taken for route in router.routes)):
        if isinstance(one, APIRoute):
            found |= {(method, one.path) for method in one.methods or ()}
        elif isinstance(one, PlainRoute):
            found |= {(method, one.path) for method in (one.methods or ()) if method != "HEAD"}
        elif type(one).__name__ != "_IncludedRouter":
            raise TypeError(f"{one!r} is a route of a kind that no test walks")
    return frozenset(found)


def filled(path: str, **names: str) -> str:
    """Return an address with values for its parameters; one without a value becomes x."""
    return re.sub(r"\{(\w+)[^}]*\}", lambda found: names.get(found[1], "x"), path)
