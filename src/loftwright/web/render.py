"""Templates, and what every page needs beside its own view."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, Final
from uuid import uuid4

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from loftwright.web.assets import asset_url
from loftwright.web.markers import club_name, with_clubs
from loftwright.web.roles import may_see

TEMPLATES: Final = Path(__file__).parent / "templates"
THEMES: Final = ("system", "bright", "dark")
_PARAMETER: Final = re.compile(r"\{[^}]*\}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopLink:
    """A page of the shop in the bar at the top."""

    name: str
    path: str


SHOP: Final = (
    ShopLink(name="Today", path="/"),
    ShopLink(name="Rack", path="/rack"),
    ShopLink(name="Bays", path="/bays"),
    ShopLink(name="Bench", path="/bench"),
    ShopLink(name="Build", path="/build"),
    ShopLink(name="Shop record", path="/shop"),
    ShopLink(name="Training bay", path="/training"),
    ShopLink(name="Settings", path="/settings"),
)


def render(
    request: Request,
    template: str,
    *,
    status: int = 200,
    headers: Mapping[str, str] | None = None,
    **context: object,
) -> HTMLResponse:
    """Return a page.

    Parameters
    ----------
    request : Request
    template : str
        File name in the folder of templates.
    status : int
    headers : mapping of str to str, optional
    **context
        What the template shows: a view, and for a page of a fitting its `job`.
    """
    text = environment().get_template(template).render(**common_context(request), **context)
    return HTMLResponse(
        text, status_code=status, headers={"Cache-Control": "no-store"} | dict(headers or {})
    )


def part(template: str, **context: object) -> str:
    """Return a part of a page as HTML, for a live event or inside another template.

    Parameters
    ----------
    template : str
        File name in the folder of templates, usually below `parts`.
    **context
        What the template shows.
    """
    return environment().get_template(template).render(**context)


@cache
def environment() -> Environment:
    """Return the templates, compiled once and escaping everything."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["asset"] = asset_url
    made.globals["club"] = club_name
    made.filters["with_clubs"] = with_clubs
    made.globals["new_key"] = new_key
    return made


def new_key() -> str:
    """Return a fresh idempotency key for a form."""
    return str(uuid4())


def has_page(request: Request, path: str) -> bool:
    """Return whether the application has a page at an address; braces stand for any parameter."""
    return shape_of(path) in request.app.state.pages


def shape_of(path: str) -> str:
    """Return an address without the names of its parameters."""
    return _PARAMETER.sub("{}", path)


def theme_of(request: Request) -> str:
    """Return the theme that this browser has chosen: system, bright or dark."""
    chosen = request.cookies.get("theme", "system")
    return chosen if chosen in THEMES else "system"


def common_context(request: Request) -> dict[str, Any]:
    """Return what every template needs beside its own view."""
    device = getattr(request.state, "device", None)
    stranger = getattr(request.state, "stranger", False)
    role = device.role if device is not None else "stranger" if stranger else "fitter"
    return {
        "path": request.url.path,
        "theme": theme_of(request),
        "shop": [
            link for link in SHOP if has_page(request, link.path) and may_see(role, link.path)
        ],
        "role": role,
        "lockable": getattr(request.state, "lockable", False),
        "lock": getattr(request.state, "lock", None),
        "drawn": datetime.now().astimezone(),
    }
