"""The rack taken out as a file, and a file looked at before it comes in."""

import re
from collections.abc import Iterator
from html import unescape

import pytest

from loftwright.domain.rack import Piece
from loftwright.services.rack_out import rack_csv, rack_json
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_files
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking

TEXT = "kind,id,name,paper_mass_g\nshaft,s1,Reed & Co <1>,62\n"


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_files.router)) as made:
        yield made


def looked(client: WebClient, text: str, name: str = "mine.csv") -> str:
    """Return the page that says what a file would do."""
    return client.post("/rack/files/look", files={"file": (name, text.encode())}).text


def form_of(page: str) -> dict[str, str]:
    """Return what the button of that page posts, as a browser sends it."""
    hidden = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', page))
    text = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", page, re.DOTALL)
    assert text is not None
    return {**hidden, "text": unescape(text.group(1)).replace("\n", "\r\n")}


def test_an_empty_rack_says_that_a_file_may_come_in(client: WebClient) -> None:
    assert (
        "The rack is empty; a file is looked at before anything comes in."
        in client.get("/rack/files").text
    )
    assert "Or bring a rack in from a file" in client.get("/rack").text


def test_the_rack_is_taken_out_in_both_forms(client: WebClient, studio: Studio) -> None:
    a_shaft(studio, head=a_head(studio))
    for path, text in (("json", rack_json(studio)), ("csv", rack_csv(studio))):
        answer = client.get(f"/rack/export.{path}")
        assert answer.text == text
        assert f'filename="loftwright-rack.{path}"' in answer.headers["content-disposition"]
    assert "5 items can be taken out" in client.get("/rack/files").text


def test_a_file_is_looked_at_and_then_comes_in(client: WebClient, studio: Studio) -> None:
    page = looked(client, TEXT)
    assert "mine.csv would add 1 row." in page
    assert "shaft Reed &amp; Co &lt;1&gt; (s1)" in page
    assert studio.store.rack().shafts == {}
    answer = client.post("/rack/files/bring", data=form_of(page))
    assert answer.status_code == 303
    assert "1 row came in." in client.get(answer.headers["location"]).text
    assert studio.store.rack().shafts["s1"].name == "Reed & Co <1>"
    assert "mine.csv would change nothing." in looked(client, TEXT)


def test_a_change_says_what_was_and_what_would_be(client: WebClient) -> None:
    client.post("/rack/files/bring", data=form_of(looked(client, TEXT)))
    page = looked(client, TEXT.replace("62", "64"))
    assert "paper_mass_g from 62 to 64" in page
    assert "mine.csv would change 1." in page


def test_a_bad_row_is_named_with_its_mend_and_offers_no_button(client: WebClient) -> None:
    page = looked(client, TEXT.replace("62", "sixty"))
    assert "mine.csv cannot come in: 1 row must be mended." in page
    assert "row 2" in page
    assert "Give a number with a point as decimal mark." in page
    assert "Bring in" not in page


@pytest.mark.parametrize(
    ("text", "told"),
    [("a,b\n", "mine.csv is no rack."), ("{", "breaks off as JSON in line 1")],
)
def test_what_is_no_rack_is_told_at_the_field(client: WebClient, text: str, told: str) -> None:
    page = looked(client, text)
    assert told in page.replace("Mine.csv", "mine.csv")
    assert 'aria-invalid="true"' in page


def test_no_file_is_asked_for(client: WebClient) -> None:
    answer = client.post("/rack/files/look", data={})
    assert answer.status_code == 422
    assert "No file was chosen." in answer.text


def test_a_rack_that_changed_meanwhile_is_looked_at_again(
    client: WebClient, studio: Studio
) -> None:
    form = form_of(looked(client, TEXT))
    client.post("/rack/files/bring", data=form_of(looked(client, TEXT.replace("62", "64"))))
    answer = client.post("/rack/files/bring", data=form)
    assert answer.status_code == 409
    assert "Nothing came in: the rack was changed since the file was looked at" in answer.text
    assert "paper_mass_g from 64 to 62" in answer.text
    client.post("/rack/files/bring", data=form_of(answer.text))
    assert studio.store.rack().shafts["s1"].paper_mass == 0.062


def test_a_file_that_was_tampered_with_does_not_come_in(client: WebClient, studio: Studio) -> None:
    form = form_of(looked(client, TEXT))
    form["text"] = form["text"].replace("62", "900")
    assert client.post("/rack/files/bring", data=form).status_code == 422
    form["text"] = form["text"].replace("900", "70")
    assert client.post("/rack/files/bring", data=form).status_code == 409
    assert studio.store.rack().shafts == {}


def test_a_file_of_another_system_comes_in_as_it_was_looked_at(
    client: WebClient, studio: Studio
) -> None:
    text = "\ufeff" + TEXT.replace("\n", "\r\n")
    assert client.post("/rack/files/bring", data=form_of(looked(client, text))).status_code == 303
    assert list(studio.store.rack().shafts) == ["s1"]


def brought(client: WebClient) -> None:
    """Bring the file in, by its two pages."""
    assert client.post("/rack/files/bring", data=form_of(looked(client, TEXT))).status_code == 303


def version_of(page: str) -> str:
    return page.split('name="version" value="')[1].split('"', maxsplit=1)[0]


def test_a_file_that_came_in_is_taken_back_with_one_button(
    client: WebClient, studio: Studio
) -> None:
    brought(client)
    page = client.get("/rack/files?came=1").text
    assert "mine.csv came in on 25 November 2026, 12:00: 1 row." in page
    assert "Take 1 row back" in page
    answer = client.post("/rack/files/back", data={"version": version_of(page)})
    assert answer.headers["location"] == "/rack/files?back=1"
    page = client.get("/rack/files?back=1").text
    assert "1 row went again; the rack is as it was before." in page
    assert "The newest file" not in page
    assert studio.store.rack().shafts == {}


def test_what_stands_in_the_way_is_listed_and_nothing_goes(
    client: WebClient, studio: Studio
) -> None:
    brought(client)
    page = client.get("/rack/files").text
    studio.store.put(Piece(id="p1", model="s1", label="<A>"), version=None)
    answer = client.post("/rack/files/back", data={"version": version_of(page)})
    assert answer.status_code == 409
    assert "Nothing was taken back: mine.csv cannot be taken back" in answer.text
    listed = client.get("/rack/files").text
    assert "The sample Reed &amp; Co &lt;1&gt; &lt;A&gt; was added since and is of it." in listed
    assert "Take 1 row back" not in listed
    assert "s1" in studio.store.rack().shafts


@pytest.mark.parametrize("version", ["", "many", "0"])
def test_a_button_without_its_version_is_refused(client: WebClient, version: str) -> None:
    brought(client)
    assert client.post("/rack/files/back", data={"version": version}).status_code == 422
