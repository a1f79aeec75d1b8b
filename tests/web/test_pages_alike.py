"""What every page has: theme, links that exist, files under addresses of their content."""

import re
from collections.abc import Iterator

import pytest

from loftwright.errors import NotFoundError
from loftwright.web.answers import inside
from loftwright.web.app import page_routers
from loftwright.web.assets import STATIC, asset, asset_url
from loftwright.web.markers import club_name, marker, with_clubs
from tally_pages import tally_app
from web_client import WebClient, asking

BAY = "/fittings/7/bay"
JSON = {"Accept": "application/json"}


@pytest.fixture
def client() -> Iterator[WebClient]:
    with asking(tally_app()) as made:
        yield made


def test_every_file_of_a_page_is_kept_for_ever_under_its_content(client: WebClient) -> None:
    text = client.get(BAY).text
    addresses = re.findall(r'(?:href|src)="(/static/[^"]+)"', text)
    assert len(addresses) >= 12
    for address in addresses:
        answer = client.get(address)
        assert answer.status_code == 200, address
        assert "immutable" in answer.headers["cache-control"]


def test_a_file_without_its_content_in_the_address_is_asked_for_again(client: WebClient) -> None:
    answer = client.get("/static/live.js")
    assert answer.headers["cache-control"] == "no-cache"
    again = client.get("/static/live.js", headers={"If-None-Match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    old = client.get("/static/live.js?v=0000000000000000")
    assert old.headers["cache-control"] == "no-cache"


def test_scripts_name_only_files_that_are_there() -> None:
    for script in STATIC.glob("*.js"):
        for name in re.findall(r'from "\./([^"]+)"', script.read_text(encoding="utf-8")):
            assert asset(name).content


def test_a_script_is_imported_under_the_one_address_that_pages_use(client: WebClient) -> None:
    text = client.get(asset_url("live.js")).text
    assert f'from "{asset_url("link.js")}"' in text
    assert f'src="{asset_url("live.js")}"' in client.get(BAY).text


def test_styles_and_scripts_name_nothing_off_the_machine() -> None:
    for path in STATIC.iterdir():
        if path.suffix in {".css", ".js"}:
            text = re.sub(r"^\s*//.*$", "", path.read_text("utf-8"), flags=re.MULTILINE)
            assert "//" not in text.replace("http://www.w3.org/2000/svg", ""), path


def test_typefaces_come_from_the_installation(client: WebClient) -> None:
    styles = client.get(asset_url("fonts.css")).text
    addresses = re.findall(r'url\("([^"]+)"\)', styles)
    assert len(addresses) == 4
    for address in addresses:
        answer = client.get(address)
        assert answer.headers["content-type"] == "font/ttf"
        assert answer.content[:4] == b"\x00\x01\x00\x00"
        assert "immutable" in answer.headers["cache-control"]


@pytest.mark.parametrize(
    "name", ["../app.py", "%2e%2e/app.py", "fonts/../../app.py", "fonts/none.ttf", ""]
)
def test_nothing_outside_the_files_is_sent(client: WebClient, name: str) -> None:
    assert client.get(f"/static/{name}").status_code == 404


def test_an_unknown_file_has_no_address() -> None:
    with pytest.raises(NotFoundError):
        asset_url("nothing.css")


@pytest.mark.parametrize(
    ("chosen", "shown"),
    [
        ("dark", 'data-theme="dark"'),
        ("bright", 'data-theme="bright"'),
        ("system", '<html lang="en">'),
    ],
)
def test_the_theme_is_on_the_page_before_it_is_painted(
    client: WebClient, chosen: str, shown: str
) -> None:
    answer = client.post("/theme", data={"theme": chosen, "back": BAY})
    assert (answer.status_code, answer.headers["location"]) == (303, BAY)
    text = client.get(BAY).text
    assert shown in text.partition("<head>")[0]
    assert f'value="{chosen}" aria-pressed="true"' in text


def test_an_unknown_theme_is_the_system_s(client: WebClient) -> None:
    client.post("/theme", data={"theme": '"><script>'})
    assert client.cookies["theme"] == "system"
    client.cookies.set("theme", "purple")
    assert '<html lang="en">' in client.get(BAY).text


def test_a_fitting_s_head_links_only_steps_that_exist(client: WebClient) -> None:
    text = client.get(BAY).text
    head = text.partition('<nav class="job"')[2].partition("</nav>")[0]
    assert "Ottoline Brambleby" in head
    assert re.findall(r'<a href="([^"]+)" aria-current="page">Bay', head) == [BAY]
    assert head.count("<a ") == 1
    for step in ("Golfer", "Plan", "Evidence", "Choice", "Report", "Build", "Final check"):
        assert f'<span class="to-come">{step}</span>' in head


def test_the_shop_links_only_pages_that_exist(client: WebClient) -> None:
    shop = client.get(BAY).text.partition('<nav aria-label="Shop">')[2].partition("</nav>")[0]
    assert re.findall(r'href="([^"]+)"', shop) == ["/rack"]
    assert 'aria-current="page">Rack' in shop


def test_a_sentence_bears_the_markers_of_its_clubs(client: WebClient) -> None:
    text = client.get(BAY).text
    heading = text.partition("<h1>")[2].partition("</h1>")[0]
    assert heading.count("<svg") == 2
    assert "k-cedar" in heading
    assert "k-birch" in heading
    assert "&lt;b&gt;" in text.partition("<h1>")[2].partition("</header>")[0]


def test_a_club_s_name_is_found_whole() -> None:
    assert with_clubs("Ashes and Birchwood, owner").count("<svg") == 0
    assert with_clubs("Ash, Own; Willow.").count("<svg") == 3
    assert with_clubs("Ash <i>", ["Ash"]) == f"{club_name('Ash')} &lt;i&gt;"
    assert with_clubs("Ash <i>", []) == "Ash &lt;i&gt;"


def test_later_clubs_repeat_a_shape_with_a_bar() -> None:
    assert "k-ash" in marker("Maple")
    assert marker("Maple").count("M") > marker("Ash").count("M")
    assert "k-own" in marker("Own")


def test_an_act_is_answered_to_a_script_without_leaving_the_page(client: WebClient) -> None:
    told = client.post("/fittings/7/acts/add", data={"key": "one"}, headers=JSON).json()
    assert told == {"to": BAY, "revision": 1}
    plain = client.post("/fittings/7/acts/add", data={"key": "two"})
    assert (plain.status_code, plain.headers["location"]) == (303, BAY)


def test_an_act_sent_twice_is_done_once(client: WebClient) -> None:
    keyed = {**JSON, "Idempotency-Key": "same"}
    for _ in range(3):
        told = client.post("/fittings/7/acts/add", data={"key": "other"}, headers=keyed).json()
        assert told["revision"] == 1


def test_a_page_is_never_kept_by_the_browser(client: WebClient) -> None:
    assert client.get("/pair").headers["cache-control"] == "no-store"


def test_every_page_module_has_its_router() -> None:
    assert all(router.routes for router in page_routers())


def test_no_page_has_inline_script_or_style(client: WebClient) -> None:
    for path in (BAY, "/pair", "/devices", "/nowhere"):
        text = client.get(path).text
        assert not re.search(r"<script(?![^>]*\bsrc=)|<style|\sstyle=|\son\w+=", text), path


@pytest.mark.parametrize(
    ("address", "kept"), [("/a?b#c", "/a?b#c"), ("//x", "/"), ("http://x", "/"), ("/\\x", "/")]
)
def test_an_address_to_go_back_to_lies_inside(address: str, kept: str) -> None:
    assert inside(address) == kept
