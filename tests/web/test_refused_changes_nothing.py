"""Every form and upload of every page with hostile values: never a defect, and a refusal is whole.

What is refused leaves the store and the data folder as they were, to the last byte of content.
"""

import re
import string
from collections.abc import Callable, Iterator
from random import Random
from urllib.parse import quote

import pytest

from form_house import NAMES, House, a_house, any_fields, hostile_fields, posts
from fuzz_targets import TARGETS
from hostile import HOSTILE, spoilt
from pages import ROOT

pytestmark = pytest.mark.xdist_group("refused changes nothing")

TRIES = 4
MORE_THAN = 650
TRUST = ROOT / "docs" / "trust.md"
UPLOADS = ("shot_table", "bag", "rack", "rounds", "readings")
FILE_NAMES = ("shots.csv", "../../out.csv", "", "a\x00b.csv", "x" * 300, "con", "é\u202e.csv")
FORM = "application/x-www-form-urlencoded"
PARTS = "multipart/form-data; boundary=x"
RAW = (
    (FORM, b"%"),
    (FORM, b"a=%ff%fe&key=%00&seen=%ed%a0%80"),
    (FORM, b"&".join(b"f%d=1" % number for number in range(1200))),
    ("multipart/form-data", b"--x\r\n"),
    (
        "multipart/form-data; boundary=x",
        b'--x\r\nContent-Disposition: form-data; name="a"\r\n\r\n',
    ),
    ("multipart/form-data; boundary=x", b"--x--\r\n" * 50),
    ("application/json", b"[" * 3000),
    ("", b"\x00\xff"),
)


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    with a_house(tmp_path_factory.mktemp("house")) as made:
        yield made


def a_file(chance: Random) -> tuple[str, bytes]:
    """Return a file that is hardly ever what was asked for."""
    seeds = TARGETS[chance.choice(UPLOADS)].seeds()
    name = chance.choice(FILE_NAMES) or "file"
    return name.replace("\x00", ""), spoilt(chance.choice(seeds), chance)


@pytest.mark.parametrize("route", posts())
def test_what_a_form_is_refused_leaves_everything_as_it_was(house: House, route: str) -> None:
    chance = Random(route)
    shape = re.compile(re.sub(r"\{\w+\}", "[^/]+", route))
    known = [form for form in house.forms if shape.fullmatch(form.action)]
    for number in range(2 * TRIES if any(form.files for form in known) else TRIES):
        if known and number:
            form = chance.choice(known)
            files = {name: a_file(chance) for name in form.files}
            data = hostile_fields(form.fields, chance)
            house.send(route, form.action, data=data, **({"files": files} if files else {}))
        else:
            house.send(route, house.filled(route, chance), data=any_fields(chance))


@pytest.mark.parametrize("route", posts())
def test_a_body_that_is_no_form_is_answered_and_changes_nothing(house: House, route: str) -> None:
    chance = Random(f"raw {route}")
    for kind, body in chance.sample(RAW, 1):
        headers = {"Content-Type": kind} if kind else {}
        house.send(route, house.filled(route, chance), content=body, headers=headers)


@pytest.mark.parametrize("route", [path for path in posts() if "{" in path])
def test_an_address_that_leads_nowhere_is_answered(house: House, route: str) -> None:
    chance = Random(f"path {route}")
    for one in chance.sample(HOSTILE, 2):
        path = re.sub(r"\{\w+\}", quote(one[:80] or "x", safe=""), route)
        fields = {name: chance.choice(string.ascii_letters) for name in chance.sample(NAMES, 3)}
        house.send(route, path, data=fields)


def test_most_routes_refused_something_of_the_posts_that_are_counted(
    house: House, say: Callable[[str], None]
) -> None:
    if house.sent.keys() != set(posts()):
        pytest.skip("this says something only after all of the tests above")
    say(
        f"hostile posts: {house.sent.total()} to {len(posts())} routes that take a form, "
        f"{house.refused.total()} refused, none a defect"
    )
    assert house.sent.total() > MORE_THAN
    assert len(house.refused) > 0.9 * len(posts())
    shown = {one.action for one in house.forms}
    assert len(shown) > 60


def test_the_page_of_promises_says_as_many_routes_and_posts_as_there_are() -> None:
    told = f"{len(posts())} routes that take a form, more than {MORE_THAN} hostile posts"
    assert told in TRUST.read_text(encoding="utf-8")
