"""Comparisons to publish: looked at, decided by a person, listed and withdrawn."""

import re
from collections.abc import Iterator
from dataclasses import replace
from urllib.parse import urlencode

import pytest

from loftwright.services.settings import change_settings, read_settings
from loftwright.web.pages import comparisons
from published_shops import PEOPLE, PublishedShop, a_publishing_shop, add_fitting, say_no
from studios import app_of
from web_client import WebClient, asking

FIELDS = {
    "kind": "shaft",
    "model": "s-bittern,s-egret",
    "reference": "s-curlew",
    "golfers": "",
    "note": "Hit from a mat",
}


@pytest.fixture
def shop() -> PublishedShop:
    return a_publishing_shop(6)


@pytest.fixture
def client(shop: PublishedShop) -> Iterator[WebClient]:
    with asking(app_of(shop.studio, comparisons.router)) as made:
        yield made


def look_at(**more: str) -> str:
    return f"/shop/comparisons/look?{urlencode({**FIELDS, **more})}"


def stamp_of(page: str) -> str:
    found = re.search(r'name="stamp" value="([0-9a-f]+)"', page)
    assert found is not None
    return found.group(1)


def published(client: WebClient) -> int:
    stamp = stamp_of(client.get(look_at()).text)
    answer = client.post("/shop/comparisons", data={**FIELDS, "stamp": stamp, "by": "Umberto"})
    assert answer.status_code == 303, answer.text
    return int(answer.headers["location"].rsplit("/", 1)[1])


def test_an_empty_shop_says_what_is_missing() -> None:
    with asking(app_of(a_publishing_shop(0).studio, comparisons.router)) as client:
        page = client.get("/shop/comparisons").text
        assert "No comparison has left the shop." in page
        assert "both are ticked on a golfer’s page" in page
        assert "Fewer than two shafts were hit" in page
        assert "Fewer than two heads" in client.get("/shop/comparisons?kind=head").text
        assert client.get("/shop/comparisons?kind=grip").status_code == 200


def test_the_page_says_who_agreed_and_what_may_be_compared(client: WebClient) -> None:
    page = client.get("/shop/comparisons").text
    assert "6 golfers agreed to publishing and to the shop record" in page
    assert "4 of 4 shafts stand on 5 of them or more" in page
    for name in PEOPLE:
        assert name.split()[1] not in page


def test_a_look_shows_all_that_leaves_and_publishes_nothing(client: WebClient) -> None:
    page = client.get(look_at()).text
    assert "Bittern 60 g firm can be told apart from Curlew 60 g firm" in page
    assert "Egret 60 g firm cannot" in page
    assert "not told apart" in page
    for words in ("Samples", "How obtained", "Funding", "one sample only", "Hit from a mat"):
        assert words in page
    assert "best" not in re.sub(r"best estimate", "", page).lower().split()
    assert "Nothing yet." in client.get("/shop/comparisons").text


def test_it_is_published_by_somebody_and_its_files_can_be_had(client: WebClient) -> None:
    number = published(client)
    page = client.get(f"/shop/comparisons/{number}").text
    assert "was published on 25 November 2026 by Umberto." in page
    assert "Everybody behind it still agrees." in page
    for kind, begins in {
        "png": b"\x89PNG",
        "svg": b"<svg",
        "csv": b"model,",
        "json": b"{",
    }.items():
        answer = client.get(f"/shop/comparisons/{number}/comparison.{kind}")
        assert answer.status_code == 200
        assert answer.content.startswith(begins)
        assert b"Umberto" not in answer.content
        assert f"comparison-{number}.{kind}" in answer.headers["content-disposition"]
    assert client.get(f"/shop/comparisons/{number}/comparison.xlsx").status_code == 404
    assert client.get("/shop/comparisons/7").status_code == 404
    listed = client.get("/shop/comparisons").text
    assert "1 comparison is published." in listed
    assert "All still agree" in listed


def test_nobody_publishes_nothing(client: WebClient) -> None:
    stamp = stamp_of(client.get(look_at()).text)
    answer = client.post("/shop/comparisons", data={**FIELDS, "stamp": stamp, "by": ""})
    assert answer.status_code == 422
    assert "Write who publishes it" in answer.text
    assert stamp_of(answer.text) == stamp
    assert "Hit from a mat" in answer.text


def test_what_changed_since_the_look_is_looked_at_again(
    client: WebClient, shop: PublishedShop
) -> None:
    stamp = stamp_of(client.get(look_at()).text)
    say_no(shop.studio, shop.golfers[0])
    answer = client.post("/shop/comparisons", data={**FIELDS, "stamp": stamp, "by": "Umberto"})
    assert answer.status_code == 409
    assert "Look again, then publish." in answer.text
    assert "Umberto" in answer.text
    assert stamp_of(answer.text) != stamp


def test_too_few_golfers_say_how_many_are_missing_and_why(
    client: WebClient, shop: PublishedShop
) -> None:
    say_no(shop.studio, shop.golfers[0])
    say_no(shop.studio, shop.golfers[1])
    page = client.get(look_at()).text
    assert "This comparison may not leave the shop yet." in page
    assert page.count("4 of 5 golfers who agreed stand behind it") == 3
    assert "Ask 1 more" in page
    assert "<svg" not in page
    answer = client.post("/shop/comparisons", data={**FIELDS, "stamp": "x", "by": "Umberto"})
    assert answer.status_code == 409
    assert "It may not be published." in answer.text
    table = client.get("/shop/comparisons").text
    assert table.count("4 of 5") >= 4


def test_a_difference_that_would_tell_of_a_few_says_so(
    client: WebClient, shop: PublishedShop
) -> None:
    published(client)
    add_fitting(shop.studio, 30, shop.effects)
    page = client.get(look_at()).text
    assert "Beside comparison 1 it would tell of 1 golfer" in page
    assert "All of them" in page


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("reference", "", "Choose what the others are compared with."),
        ("model", "", "Choose 2 to 6 different ones."),
        ("note", "the longest", "nothing of which model is ahead"),
        ("note", f"by {PEOPLE[0]}", "names nobody"),
        ("paid", "a friend", "is unknown"),
        ("golfers", "left-handed", "is unknown"),
    ],
)
def test_what_cannot_be_is_told_beside_what_was_typed(
    client: WebClient, field: str, value: str, said: str
) -> None:
    answer = client.get(look_at(**{field: value}))
    assert answer.status_code == 422
    assert said in answer.text
    if field == "note":
        assert value in answer.text


def test_a_withdrawn_comparison_hands_out_no_file(client: WebClient, shop: PublishedShop) -> None:
    number = published(client)
    say_no(shop.studio, shop.golfers[0])
    assert (
        "1 golfer behind it does not agree any more"
        in client.get(f"/shop/comparisons/{number}").text
    )
    assert "1 golfer no longer agrees" in client.get("/shop/comparisons").text
    refused = client.post(f"/shop/comparisons/{number}/withdraw", data={"by": " "})
    assert refused.status_code == 422
    assert "Write who withdraws it" in refused.text
    answer = client.post(f"/shop/comparisons/{number}/withdraw", data={"by": "Umberto"})
    assert answer.status_code == 303
    assert "was withdrawn on 25 November 2026" in client.get(answer.headers["location"]).text
    assert client.get(f"/shop/comparisons/{number}/comparison.png").status_code == 409
    listed = client.get("/shop/comparisons").text
    assert "Withdrawn 25 November 2026 by Umberto" in listed
    assert "No comparison has left the shop." not in listed


def test_figures_stand_in_the_shops_own_units(client: WebClient, shop: PublishedShop) -> None:
    known = read_settings(shop.studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(shop.studio, metric, version=known.version)
    page = client.get(look_at()).text
    said = re.sub(r"<[^>]+>", " ", page)
    assert "m/s" in said
    assert not re.search(r"\b(mph|yd)\b", said)
    assert re.search(r"\+\d+,\d", said)
    assert not re.search(r"[+−]\d+\.\d", said)
