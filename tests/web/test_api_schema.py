"""Whatever the schema allows, and much that it does not, is answered as the schema says."""

from typing import Any

import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis import Case
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from bays import a_bay
from loftwright.web.app import create_app
from loftwright.web.pages import api

BAY = a_bay()
APP = create_app(BAY.studio, routers=(api.router,))
NEAR = {"Host": "127.0.0.1"}
SCHEMA = schemathesis.openapi.from_asgi("/api/openapi.json", APP, headers=NEAR)
CHECKS = [
    not_a_server_error,
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
]


@SCHEMA.parametrize()
@settings(max_examples=40, suppress_health_check=list(HealthCheck), database=None)
def test_nothing_that_is_sent_is_a_defect_or_answered_off_the_schema(case: Case[Any]) -> None:
    if "fitting" in case.path_parameters:
        case.path_parameters["fitting"] = BAY.fitting
    case.call_and_validate(checks=CHECKS, headers=NEAR)


def test_the_schema_has_an_example_that_can_be_copied() -> None:
    post = SCHEMA["/api/fittings/{fitting}/shots"]["POST"]
    body = post.definition.raw["requestBody"]["content"]["application/json"]
    assert body["example"]["key"]
    assert body["schema"]["required"] == ["key"]
