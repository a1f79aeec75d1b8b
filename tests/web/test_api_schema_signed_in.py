"""Devices of every role against the schema: no defect, and what is refused changes nothing."""

from itertools import count
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis import Case

from bays import a_bay
from kept_content import Content, differing
from loftwright.services.pairing import ROLES
from loftwright.services.studio import Studio
from loftwright.services.tries import Tries
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from loftwright.web.pages import api
from loftwright.web.roles import may_see
from loftwright.web.security import Access
from studios import Clock

pytestmark = pytest.mark.xdist_group("schema, signed in")

FOLDER = Path(mkdtemp(prefix="loftwright-"))
STUDIO = Studio(store=open_store(FOLDER, draft=True), folder=FOLDER, clock=Clock())
CONTENT = Content(FOLDER)
BAY = a_bay(studio=STUDIO)
APP = create_app(
    STUDIO,
    access=Access(addresses=True, paired=True),
    routers=(api.router,),
    # A second goes by at every look: however fast the machine is, nobody is told to wait.
    tries=Tries(count().__next__),
)
HOST = {"Host": "192.0.2.7:8432"}


def key_for(role: str) -> dict[str, str]:
    """Let a device in and return the headers that it sends."""
    letting_in = APP.state.pairing
    made = letting_in.let_in(letting_in.new_code().figures, name=f"A {role}", role=role)
    return {**HOST, "Authorization": f"Bearer {made.key}"}


KEYS = {role: key_for(role) for role in ROLES}
KEYS |= {"stranger": HOST, "liar": {**HOST, "Authorization": "Bearer x"}}
SCHEMA = schemathesis.openapi.from_asgi("/api/openapi.json", APP, headers=KEYS["fitter"])


@SCHEMA.parametrize()
@settings(max_examples=5, suppress_health_check=list(HealthCheck), database=None, derandomize=True)
def test_a_device_is_answered_by_its_role_and_a_refusal_changes_nothing(case: Case[Any]) -> None:
    if "fitting" in case.path_parameters and len(str(case.path_parameters["fitting"])) % 4:
        case.path_parameters["fitting"] = BAY.fitting
    path = case.formatted_path
    for role, key in KEYS.items():
        before = CONTENT.now()
        answer = case.call(headers=key)
        said = (role, case.method, path, case.body, answer.status_code, answer.text[:300])
        assert answer.status_code < 500, said
        if role not in ROLES:
            assert answer.status_code == 401, said
        elif not may_see(role, path, case.method):
            assert answer.status_code == 403, said
        else:
            assert answer.status_code not in {401, 403}, said
        if answer.status_code >= 400:
            assert differing(before, CONTENT.now()) == [], said


def test_a_ball_that_is_taken_does_change_the_store() -> None:
    post = SCHEMA["/api/fittings/{fitting}/shots"]["POST"]
    body = post.definition.raw["requestBody"]["content"]["application/json"]["example"]
    ball = {**body, "key": "not sent before"}
    case = post.Case(path_parameters={"fitting": BAY.fitting}, body=ball)
    before = CONTENT.now()
    assert case.call(headers=KEYS["feed"]).status_code == 200
    assert "table shots" in differing(before, CONTENT.now())
