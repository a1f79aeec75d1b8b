"""The rack: added to, looked through, changed, locked and put back."""

from collections.abc import Iterator

import pytest

from loftwright.constants import GRAM
from loftwright.domain.rack import State
from loftwright.services.rack_changing import known_item, set_state
from loftwright.services.settings import Settings, change_settings
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_item
from studios import a_head, a_shaft, a_sleeve, app_of
from web_client import WebClient, asking


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_item.router)) as made:
        yield made


def test_an_empty_rack_says_what_is_enough(client: WebClient) -> None:
    text = client.get("/rack").text
    assert "The rack is empty: one head and one shaft make its first club." in text
    assert "Weight, length and the label on the paper are enough" in text


def test_a_head_is_added_with_its_one_sample(client: WebClient, studio: Studio) -> None:
    answer = client.post("/rack/heads", data={"name": "Harrow 460", "loft": "10,5"})
    assert answer.status_code == 303
    held = studio.store.rack()
    (piece,) = held.pieces.values()
    assert held.heads[piece.model].name == "Harrow 460"
    assert client.get(answer.headers["location"]).text.count("Harrow 460") >= 2


def test_one_form_adds_a_shaft_and_the_club_it_makes(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    answer = client.post(
        "/rack/shafts",
        data={
            "name": "Reedmace",
            "paper_mass": "60",
            "paper_label": "firm",
            "head": head.id,
            "length": "45.25",
        },
    )
    assert answer.status_code == 303
    held = studio.store.rack()
    assert len(held.assemblies) == 1
    page = client.get(answer.headers["location"]).text
    assert "1 head and 1 shaft make 1 club; no shaft is measured yet." in page
    assert page.count("not measured") == 2


def test_the_next_shaft_finds_head_and_length_filled_in(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    fields = {"name": "Reedmace", "paper_mass": "60", "head": head.id, "length": "45.25"}
    page = client.get(client.post("/rack/shafts", data=fields).headers["location"]).text
    assert 'name="length" type="text" value="45.25"' in page
    assert f'<option value="{head.id}" selected>' in page


def test_a_figure_that_cannot_be_keeps_what_was_typed(client: WebClient) -> None:
    answer = client.post("/rack/heads", data={"name": "Harrow 460", "loft": "forty"})
    assert answer.status_code == 422
    assert "is not a number with or without a unit" in answer.text
    assert 'value="forty"' in answer.text
    assert 'value="Harrow 460"' in answer.text
    assert 'aria-invalid="true"' in answer.text


def test_a_loft_beyond_the_limit_is_told_at_its_field(client: WebClient) -> None:
    text = client.post("/rack/heads", data={"name": "Harrow 460", "loft": "105"}).text
    assert "A head of 105.0 deg cannot be used. Give the loft printed on the head" in text


def test_an_iron_stands_in_the_rack_and_a_driver_with_its_loft_does_not(
    client: WebClient, studio: Studio
) -> None:
    answer = client.post("/rack/heads", data={"name": "Flint 5", "loft": "27"})
    assert answer.status_code == 303
    (head,) = [
        piece.id
        for piece in studio.store.rack().pieces.values()
        if studio.store.rack().heads[piece.model].name == "Flint 5"
    ]
    fields = {"name": "Ferrule 115", "paper_mass": "115", "head": head}
    slip = client.post("/rack/shafts", data={**fields, "length": "45.5"})
    assert slip.status_code == 422
    assert "A driver of 27.0 deg cannot be used." in slip.text
    assert client.post("/rack/shafts", data={**fields, "length": "38"}).status_code == 303
    assert len(studio.store.rack().assemblies) == 1


def test_a_shaft_without_the_sleeve_of_its_head_is_refused_and_nothing_is_kept(
    client: WebClient, studio: Studio
) -> None:
    head = a_head(studio, system="Quarter")
    answer = client.post(
        "/rack/shafts",
        data={"name": "Reedmace", "head": head.id, "length": "45.25", "paper_mass": "60"},
    )
    assert answer.status_code == 422
    assert "takes a Quarter sleeve and this shaft has no sleeve" in answer.text
    assert studio.store.rack().shafts == {}


def test_a_club_takes_the_sleeve_s_first_setting(client: WebClient, studio: Studio) -> None:
    head, sleeve = a_head(studio, system="Quarter"), a_sleeve(studio)
    answer = client.post(
        "/rack/shafts",
        data={
            "name": "Reedmace",
            "paper_mass": "60",
            "head": head.id,
            "length": "1149 mm",
            "sleeve": sleeve.id,
        },
    )
    assert answer.status_code == 303
    (club,) = studio.store.rack().assemblies.values()
    assert club.setting == "middle"


def test_a_sleeve_is_written_one_setting_a_line(client: WebClient, studio: Studio) -> None:
    lines = "middle\none up; 1.5; to the target\nflat; 1.5; 270"
    data = {"name": "Quarter sleeve", "system": "Quarter", "settings": lines}
    assert client.post("/rack/sleeves", data=data).status_code == 303
    (sleeve,) = studio.store.rack().sleeves.values()
    assert [one.name for one in sleeve.settings] == ["middle", "one up", "flat"]
    page = client.get(f"/rack/items/{sleeve.id}").text
    assert "flat; 1.5; away from the player" in page


def test_a_line_that_is_no_setting_is_named(client: WebClient) -> None:
    data = {"name": "Quarter sleeve", "system": "Quarter", "settings": "one up; 1.5"}
    answer = client.post("/rack/sleeves", data=data)
    assert answer.status_code == 422
    assert "is not a name, or a name, a bore and a direction" in answer.text


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("least_mass=55&most_mass=62", ["Reedmace"]),
        ("most_mass=54", ["Sedge"]),
        ("words=firm", ["Reedmace"]),
        ("words=REED+harrow", ["Reedmace"]),
        ("words=ready", ["Sedge", "Reedmace"]),
        ("least_length=45.5", ["Sedge"]),
        ("sort=length", ["Reedmace", "Sedge"]),
        ("sort=weight", ["Sedge", "Reedmace"]),
    ],
)
def test_clubs_are_sought_and_sorted(
    client: WebClient, studio: Studio, asked: str, found: list[str]
) -> None:
    head = a_head(studio)
    a_shaft(studio, "Reedmace", 60.0, "firm", head=head, length=45.0)
    a_shaft(studio, "Sedge", 50.0, "soft", head=head, length=45.75)
    text = client.get(f"/rack?{asked}").text
    table = text[text.index('aria-label="Whole clubs"') : text.index('id="shafts"')]
    order = [name for name in ("Reedmace", "Sedge") if f"<td>{name}" in table]
    assert sorted(order, key=lambda name: table.index(f"<td>{name}")) == found


def test_a_locked_shaft_says_why_and_is_put_back(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio, head=a_head(studio))
    where = f"/rack/items/{piece.id}"
    data = {"state": "locked", "reason": "cracked at the tip", "version": "1"}
    answer = client.post(f"{where}/state", data=data)
    assert answer.status_code == 303
    assert "locked: cracked at the tip" in client.get("/rack").text
    page = client.get(answer.headers["location"]).text
    assert "Put it back" in page
    client.post(f"{where}/state", data={"state": "ready", "version": "2"})
    assert "cracked" not in client.get("/rack").text


def test_a_lock_without_a_reason_is_refused(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    answer = client.post(
        f"/rack/items/{piece.id}/state", data={"state": "retired", "version": "1"}
    )
    assert answer.status_code == 422
    assert "Write what was seen" in answer.text


def test_a_stale_change_shows_what_stands_and_keeps_what_was_typed(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    set_state(studio, piece.id, State.LOCKED, reason="on loan")
    data = {
        "name": "Reedmace",
        "paper_mass": "61",
        "mass": "62.5",
        "version": "1",
        "model_version": "1",
    }
    answer = client.post(f"/rack/items/{piece.id}", data=data)
    assert answer.status_code == 409
    assert "What stands now: Reedmace firm" in answer.text
    assert 'value="62.5"' in answer.text
    assert studio.store.rack().shafts[piece.model].paper_mass == 60.0 * GRAM


def test_a_shaft_is_weighed_and_its_model_renamed_in_one_form(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    data = {
        "name": "Reedmace II",
        "paper_mass": "60",
        "paper_label": "firm",
        "mass": "66",
        "version": "1",
        "model_version": "1",
    }
    assert client.post(f"/rack/items/{piece.id}", data=data).status_code == 303
    text = client.get("/rack").text
    assert "Reedmace II" in text
    assert "66.0 g" in text
    assert "weighed, printed 60\N{NO-BREAK SPACE}g" in text


def test_a_change_that_would_break_a_club_is_refused(client: WebClient, studio: Studio) -> None:
    head, sleeve = a_head(studio, system="Quarter"), a_sleeve(studio)
    a_shaft(studio, head=head, sleeve=sleeve)
    data = {
        "name": sleeve.name,
        "system": "Eighth",
        "settings": "middle",
        "version": str(known_item(studio, sleeve.id).version),
    }
    answer = client.post(f"/rack/items/{sleeve.id}", data=data)
    assert answer.status_code == 422
    assert "A club of the rack would not fit" in answer.text


def test_another_sample_of_a_known_shaft_shares_its_model(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    data = {"model": piece.model, "piece_label": "second"}
    assert client.post("/rack/shafts", data=data).status_code == 303
    held = studio.store.rack()
    assert len(held.shafts) == 1
    assert len(held.pieces) == 2


def test_metric_figures_with_a_comma(client: WebClient, studio: Studio) -> None:
    change_settings(studio, Settings(units="metric", decimal="comma"), version=0)
    a_shaft(studio, head=a_head(studio))
    text = client.get("/rack").text
    assert "1149 mm" in text
    assert "10,5°" in text


def test_an_unknown_item_is_not_found(client: WebClient) -> None:
    assert client.get("/rack/items/nothing").status_code == 404
