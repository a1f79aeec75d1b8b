"""A studio with fittings at every station, and hostile content for every form that it takes."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

from fastapi.routing import APIRoute

from built_jobs import a_job
from demos import a_demo
from hostile import HOSTILE
from kept_content import Content, differing
from loftwright.domain.sheet_acts import Step
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.web import app as whole
from loftwright.web import pairing
from loftwright.web.app import create_app, page_routers
from page_forms import PageForm, forms_of
from studios import Clock
from web_client import WebClient, asking

TEMPLATES = Path(whole.__file__).parent / "templates"
NAMES = tuple(
    sorted(
        {
            name
            for page in TEMPLATES.rglob("*.html")
            for name in re.findall(r'name="([a-z][a-z0-9_.-]*)"', page.read_text("utf-8"))
        }
    )
)
"""Of the fields in all templates, for forms that no page shows now."""

LAST = ("erase", "merge", "apart", "leave", "remove", "withdraw", "settings", "theme", "close")
"""In a path that takes away what the forms before it need."""

NO_PAGES = re.compile(r"\.|/live|/events|/labels|/prints|/static|/api|flight|picture|revision")


def posts() -> list[str]:
    """Return the path of every route that takes a form, those that take away last."""
    routers = (whole.router, pairing.router, *page_routers())
    found = [
        route.path
        for one in routers
        for route in one.routes
        if isinstance(route, APIRoute) and "POST" in (route.methods or ())
    ]
    return sorted(found, key=lambda path: any(word in path for word in LAST))


@dataclass(slots=True, kw_only=True)
class House:
    """A studio on disk with fittings at every station, and the forms that its pages show."""

    content: Content
    client: WebClient
    ids: Mapping[str, tuple[str, ...]]
    forms: list[PageForm] = field(default_factory=list)
    sent: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)

    def filled(self, path: str, chance: Random) -> str:
        """Return a path with what stands in it for its parameters."""
        return re.sub(
            r"\{(\w+)\}", lambda found: chance.choice(self.ids.get(found[1], ("1",))), path
        )

    def send(self, route: str, path: str, **what: Any) -> None:  # noqa: ANN401 - as httpx
        """Post something; check the answer and, if it was refused, that nothing changed."""
        before = self.content.now()
        self.sent[route] += 1
        answer = self.client.post(path, **what)
        said = (route, path, what, answer.text[:300])
        assert answer.status_code < 500, said
        if answer.status_code >= 400:
            self.refused[route] += 1
            assert differing(before, self.content.now()) == [], said


def a_full_studio(folder: Path) -> tuple[Studio, dict[str, tuple[str, ...]]]:
    """Return a studio on disk with everything in it, and what can stand in paths."""
    studio = Studio(store=open_store(folder, draft=True), folder=folder, clock=Clock())
    demo = a_demo(studio)
    job = a_job(studio=studio)
    job.issue()
    job.work(tuple(Step)[2])
    rack = studio.store.rack()
    fittings = (demo.in_progress, demo.finished, job.fitting)
    return studio, {
        "fitting": fittings,
        "golfer": tuple(studio.store.fitting(one).value.golfer for one in fittings),
        "item": (*list(rack.heads)[:1], *list(rack.shafts)[:2], *list(rack.pieces)[:2]),
        "part": ("head", "shaft", "grip"),
        "profile": tuple(one.id for told in studio.store.profiles().values() for one in told)[:2],
        "name": ("mark", "set-run", "move-run", "undo", "ball", "felt", "strip", "it-was", "scan"),
        "code": ("7KQ-4MX-9TR",),
    }


@contextmanager
def a_house(folder: Path) -> Iterator[House]:
    """Give a house whose studio lies in a folder, for the length of a block."""
    studio, ids = a_full_studio(folder)
    with asking(create_app(studio)) as client:
        content = Content(folder)
        made = House(content=content, client=client, ids=ids)
        for path in dict.fromkeys(pages_of(ids)):
            made.forms += forms_of(client.get(path).text, path)
        yield made
        content.close()
    studio.store.close()


def pages_of(ids: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Return the pages whose forms are sent."""
    for router in page_routers():
        for route in router.routes:
            if not isinstance(route, APIRoute) or "GET" not in (route.methods or ()):
                continue
            if NO_PAGES.search(route.path):
                continue
            named = re.findall(r"\{(\w+)\}", route.path)
            for value in ids.get(named[0], ()) if named else ("",):
                first = route.path.replace(f"{{{named[0]}}}", value) if named else route.path
                yield re.sub(r"\{(\w+)\}", lambda found: ids.get(found[1], ("1",))[0], first)


def hostile_fields(fields: Mapping[str, str], chance: Random) -> dict[str, str]:
    """Return fields with some of them spoilt, left out or strange."""
    made = dict(fields)
    for name in chance.sample(sorted(made), min(len(made), chance.randint(1, 3))):
        if chance.random() < 0.1:
            del made[name]
        else:
            made[name] = chance.choice(HOSTILE)
    return made


def any_fields(chance: Random) -> dict[str, str]:
    """Return fields of any page with hostile values."""
    return {name: chance.choice(HOSTILE) for name in chance.sample(NAMES, 12)}
