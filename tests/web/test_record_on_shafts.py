"""What the shop record says of a shaft: on its page in the rack, and in a golfer's plan."""

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from fastapi import FastAPI

from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import StoreError
from loftwright.physics.shaft_swing.players import Change
from loftwright.services import shop_learning
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.settings import Settings, change_settings
from loftwright.services.studio import Studio
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import Effects
from loftwright.web.pages import plan, rack_item, shop
from racks import a_measured_rack
from studios import app_of
from told_samples import HERON, Told, a_learned
from web_client import WebClient, asking

FAST: Told = {
    **HERON,
    ("speed", "heron-60-1 | fast"): ((0.0, 0.0, 0.4, 0.0, 0.0), 0.1, 7),
    ("speed", "heron-60-1 | slow"): ((0.0, 0.0, -0.4, 0.0, 0.0), 0.1, 5),
}
OVER_ALL = "Over all golfers: spin −180 rpm (−270 to −90), launch +0.3°"

Learn = Callable[[ShopLearned], None]


@pytest.fixture
def app(studio: Studio) -> FastAPI:
    a_measured_rack(studio)
    return app_of(studio, shop.router, plan.router, rack_item.router)


@pytest.fixture
def client(app: FastAPI) -> Iterator[WebClient]:
    with asking(app) as made:
        yield made


@pytest.fixture
def learn(monkeypatch: pytest.MonkeyPatch) -> Learn:
    """Return what lets a shop have learned something."""

    def has_learned(made: ShopLearned) -> None:
        monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (made.version,))
        monkeypatch.setattr(shop_learning, "read_learned", lambda *_: made)

    return has_learned


def said(client: WebClient, item: str) -> str:
    """Return what an item's page says from the record."""
    block = client.get(f"/rack/items/{item}").text.partition('id="record"')[2]
    block = block.partition("</header>")[2]
    return block.partition("<p>")[2].partition("</p>")[0]


def a_plan(studio: Studio, golfer: Golfer) -> str:
    brought = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH, shaft_mass=0.060)
    visitor = Visitor(golfer=golfer, identity=Identity(name="Ottoline"), own=brought)
    return f"/fittings/{open_for_new(studio, visitor, bay='Bay 1').id}/plan"


def test_before_anything_was_learned_the_rack_says_so_and_the_plan_nothing(
    client: WebClient, studio: Studio
) -> None:
    assert said(client, "heron-60-1-a") == "Nothing has been learned yet."
    assert "Over all golfers" not in client.get(a_plan(studio, Golfer(id=""))).text


def test_a_shaft_of_the_rack_says_what_it_does_over_all_golfers(
    client: WebClient, learn: Learn
) -> None:
    learn(a_learned())
    assert said(client, "heron-60-1-a").startswith(OVER_ALL)
    assert said(client, "heron-60-1-a").endswith("; 10 fittings.")
    assert 'href="/shop#shafts"' in client.get("/rack/items/heron-60-1-a").text


def test_a_sample_that_was_never_hit_rests_on_its_model(client: WebClient, learn: Learn) -> None:
    learn(a_learned())
    assert said(client, "heron-60-1-b").endswith("; 12 fittings of its model.")


def test_a_shaft_of_which_nothing_is_known_says_so(client: WebClient, learn: Learn) -> None:
    learn(a_learned({("model", "sedge"): ((0.0,) * 5, 0.1, 4)}))
    assert said(client, "heron-60-1-a") == "Nothing in the shop record."


def test_a_head_says_nothing_of_shafts(client: WebClient, learn: Learn) -> None:
    learn(a_learned())
    assert 'id="record"' not in client.get("/rack/items/harrow-1").text


def test_a_new_generation_says_from_what_it_is_carried_over(
    client: WebClient, learn: Learn
) -> None:
    told = {**HERON, ("model", "heron-60-2"): ((0.0, 0.2, -0.6, 0.0, 0.0), 0.2, 0)}
    made = a_learned(told)
    like = {("model", "heron-60-2"): ("heron-60-1", 0.8)}
    carried: Effects = replace(made.effects, like=like)
    learn(replace(made, effects=carried))
    assert said(client, "heron-60-2-b").endswith(
        "; carried over from Heron 60 firm (generation 1) (likeness 0.8, 12 fittings)."
    )
    page = " ".join(client.get("/shop").text.split())
    assert "model, carried over from Heron 60 firm (generation 1) (likeness 0.8, 12" in page
    assert 'stroke-dasharray="5 4"' in page


def test_the_plan_says_it_for_golfers_like_this_one(
    client: WebClient, studio: Studio, learn: Learn
) -> None:
    learn(a_learned(FAST))
    fast = Golfer(id="", head_speed=112.0 * MILE_PER_HOUR, change=Change.QUICK)
    text = client.get(a_plan(studio, fast)).text
    assert "For golfers like this one (fast): spin −100 rpm" in text
    slow = Golfer(id="", head_speed=80.0 * MILE_PER_HOUR)
    assert (
        "For golfers like this one (slow): spin −260 rpm" in client.get(a_plan(studio, slow)).text
    )
    assert OVER_ALL in client.get(a_plan(studio, Golfer(id=""))).text


@pytest.fixture
def low_by_its_label(studio: Studio, learn: Learn) -> None:
    """A shaft whose label promises a low launch and that launches high in twelve fittings."""
    rack = studio.store.rack()
    for name, label in (("heron-60-1", "low launch"), ("heron-70-1", "firm")):
        old = rack.shafts[name]
        studio.store.put(replace(old, paper_label=label), version=1)
    learn(a_learned({**HERON, ("model", "heron-60-1"): ((0.0, 2.0, 0.0, 0.0, 0.0), 0.1, 12)}))


@pytest.mark.usefixtures("app", "low_by_its_label")
def test_a_label_that_the_record_contradicts_is_told_wherever_the_shaft_is(
    client: WebClient, studio: Studio
) -> None:
    words = "Its label says low launch; 12 fittings say launch +1.6°"
    assert words in client.get("/rack/items/heron-60-1-a").text
    assert words not in client.get("/rack/items/heron-70-1-a").text
    assert words in client.get(a_plan(studio, Golfer(id=""))).text
    block = client.get("/shop").text.partition('id="against"')[2].partition("</section>")[0]
    assert f"<b>Heron 60 low launch (generation 1).</b> {words}" in block


def test_it_speaks_in_the_shop_s_units(client: WebClient, studio: Studio, learn: Learn) -> None:
    learn(a_learned())
    change_settings(studio, Settings(units="metric", decimal="comma"), version=0)
    assert "launch +0,3° (−0,1 to +0,6), ball speed +0,1 m/s" in said(client, "heron-60-1-a")


def test_what_cannot_be_read_is_said_everywhere_and_can_be_learned_anew(
    client: WebClient, studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    def damaged(*_: object) -> ShopLearned:
        raise StoreError("what was learned is damaged", mend="Learn anew.")

    monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (3,))
    monkeypatch.setattr(shop_learning, "read_learned", damaged)
    why = "Version 3 cannot be used: what was learned is damaged. Learn anew."
    assert said(client, "heron-60-1-a") == why
    page = client.get("/shop")
    assert page.status_code == 200
    assert why in page.text
    assert "What the shop has learned cannot be read, so physics leads." in page.text
    assert why in client.get(a_plan(studio, Golfer(id=""))).text
