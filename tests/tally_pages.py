"""A fitting's page that counts, to try the chassis on: one live number, some forms.

Run as a program it serves itself and keeps its number in the data folder, so that it can be
killed and started again.
"""

import os
import sys
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from threading import Lock
from typing import Annotated

from fastapi import APIRouter, FastAPI, Form, Query, Request, Response
from fastapi.responses import HTMLResponse

from fakes import MemoryStore
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import ConflictError, InputError
from loftwright.services.studio import Studio
from loftwright.services.tries import Tries
from loftwright.web.answers import acted
from loftwright.web.app import create_app
from loftwright.web.job import job_of
from loftwright.web.live import LiveState, live_events
from loftwright.web.render import common_context, environment
from loftwright.web.security import Access
from loftwright.web.state import ActKey, Here

TOPIC = "tally"
_PARTS = {
    "count": "<p>Balls: <output id='count'>{{ count }}</output></p>",
    "last": "<p>Last key <code>{{ key or 'none' }}</code></p>"
    "<form method='post' action='/fittings/7/acts/add' data-act>"
    "<label>Note <input name='note' value=''></label><button>Add {{ count + 1 }}</button></form>",
}
_PAGE = """
{% extends "fitting.html" %}
{% from "macros.html" import say, block, table, field, choose, act_button, theme_form %}
{% set here = "/rack" %}
{% block title %}Bay{% endblock %}
{% block main %}
{{ say("Hand over Cedar next: it can still beat Birch.", "Own & <b>Maple</b> wait.") }}
{% call block("Balls", ["Counted as they come."]) %}
<div id="part-count">{{ parts.count | safe }}</div>
<div id="part-last">{{ parts.last | safe }}</div>
{{ act_button("/fittings/7/acts/refuse", "Do what cannot be") }}
{{ act_button("/fittings/7/acts/stale", "Do what is stale", seen=3) }}
{{ theme_form(theme, path) }}
{% endcall %}
{% call block("The figures behind it") %}
{% call table("Clubs") %}
<thead><tr><th>Club</th><th class="n">Total, yd</th></tr></thead>
<tbody>
<tr class="lead-row"><th scope="row">{{ club("Birch") }}</th>
<td class="n">+5.4<span class="r">+0.9 to +9.9</span></td></tr>
<tr><th scope="row">{{ club("Own") }}</th><td class="n">0</td></tr>
</tbody>
{% endcall %}
<form class="stack" method="post" action="/fittings/7/acts/add">
{{ field("name", "Name", hint="As the list shows it.", required=true) }}
{{ choose("hand", "Hand", [("right", "Right"), ("left", "Left")], "right") }}
<button class="go">Keep</button>
</form>
{% endcall %}
{% endblock %}
"""


@dataclass(slots=True)
class Tally:
    """The number, written down where there is a file for it."""

    file: Path | None = None
    keys: list[str] = field(default_factory=list)
    lock: Lock = field(default_factory=Lock)

    def __post_init__(self) -> None:
        if self.file is not None and self.file.is_file():
            self.keys = self.file.read_text(encoding="utf-8").split()

    def add(self, key: str) -> int:
        with self.lock:
            if key not in self.keys:
                self.keys.append(key)
                if self.file is not None:
                    self.file.write_text("\n".join(self.keys), encoding="utf-8")
            return len(self.keys)

    def state(self) -> LiveState:
        count = len(self.keys)
        last = self.keys[-1] if self.keys else ""
        parts = {
            name: environment().from_string(text).render(count=count, key=last)
            for name, text in _PARTS.items()
        }
        return LiveState(revision=count, parts=parts)


def tally_app(
    tally: Tally | None = None, access: Access | None = None, tries: Tries | None = None
) -> FastAPI:
    """Return an application of one counting page."""
    counted = tally if tally is not None else Tally()
    studio = Studio(store=_store(), folder=Path())
    app = create_app(studio, access=access, routers=(_router(counted),), tries=tries)
    app.state.tally = counted
    return app


def _store() -> MemoryStore:
    store = MemoryStore()
    store.add_golfer(Golfer(id="g"), Identity(name="Ottoline Brambleby"))
    store.open_fitting(Fitting(id="7", golfer="g", opened=date(2026, 11, 25)))
    store.add_golfer(Golfer(id="h"), Identity(name="Marmaduke Bartholomew Thistlewick-Fennimoss"))
    store.open_fitting(Fitting(id="8", golfer="h", opened=date(2026, 11, 25), invented=True))
    return store


def _router(tally: Tally) -> APIRouter:
    router = APIRouter()

    @router.get("/fittings/{fitting}/bay")
    def show(request: Request, fitting: str) -> HTMLResponse:
        page = environment().from_string(_PAGE)
        return HTMLResponse(
            page.render(
                **common_context(request),
                job=job_of(request, fitting, "bay"),
                live=f"/fittings/{fitting}/events",
                parts=tally.state().parts,
            )
        )

    @router.get("/fittings/{fitting}/events")
    async def events(request: Request) -> Response:
        return await live_events(request, TOPIC, tally.state)

    @router.post("/fittings/{fitting}/acts/add")
    def add(request: Request, fitting: str, studio: Here, key: ActKey) -> Response:
        count = tally.add(key)
        studio.hub.publish(TOPIC, count)
        return acted(request, f"/fittings/{fitting}/bay", revision=count)

    @router.post("/fittings/{fitting}/acts/refuse")
    def refuse() -> None:
        raise InputError("a face is not 400 mm wide", place="mark", mend="Tap the face again.")

    @router.post("/fittings/{fitting}/acts/stale")
    def stale(seen: Annotated[int, Form(ge=0)]) -> None:
        raise ConflictError(f"ball 4 was moved after {seen}", place="ball", mend="Look again.")

    @router.get("/rack")
    def rack(most: Annotated[int, Query(le=50)] = 10) -> HTMLResponse:
        return HTMLResponse(f"<!doctype html><title>Rack</title>{most}")

    @router.get("/api/broken")
    def broken() -> None:
        raise RuntimeError("secret")

    @router.get("/screen/{fitting}")
    def screen(fitting: str) -> HTMLResponse:
        return HTMLResponse(f"<!doctype html><title>Screen</title>{fitting}")

    @router.post("/fittings/{fitting}/echo")
    async def echo(request: Request) -> Response:
        return Response(str(len(await request.body())))

    return router


def main(port: int) -> None:
    """Serve the counting page until stopped."""
    from loftwright.web.server import listen, serve_until_stopped  # noqa: PLC0415

    folder = Path(os.environ["LOFTWRIGHT_DATA"])
    folder.mkdir(parents=True, exist_ok=True)
    app = tally_app(Tally(file=folder / "tally"))
    serve_until_stopped(app, listen("127.0.0.1", port), app.state.studio.hub, lambda: None)


if __name__ == "__main__":
    main(int(sys.argv[1]))
