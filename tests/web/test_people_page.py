"""Who fits here: one act ends a person's access, and two records become one golfer's."""

from collections.abc import Iterator

import pytest
from httpx import Response

from bays import a_bay
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from loftwright.web.security import Access
from studios import Clock, app_of, studio_in_memory
from web_client import MAIN_SCREEN, TABLET, WebClient, asking


def sent(client: WebClient, path: str, data: dict[str, str] | None = None) -> Response:
    """Send a form and return the page that follows."""
    return client.post(path, data=data, follow_redirects=True)


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    golfer = add_golfer(made, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    add_golfer(made, Golfer(id=""), Identity(name="O. Brambleby"))
    open_fitting(made, golfer.id, bay="Bay 1", fitter="Ann Reed")
    return made


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def test_an_empty_house_has_nobody_to_leave() -> None:
    with asking(app_of(studio_in_memory())) as client:
        page = client.get("/people").text
    assert "No fitting bears a fitter’s name yet." in page
    assert "Two records are needed for that." in page


def test_a_fitter_leaves_and_is_let_back(client: WebClient, studio: Studio) -> None:
    assert "Ann Reed fits here." in client.get("/people").text
    asked = client.post("/people", data={"name": "Ann Reed"}).text
    assert "Yes, end the access of Ann Reed" in asked
    page = sent(client, "/people/leave", data={"name": "Ann Reed"}).text
    assert "The access is ended" in page
    assert "Ann Reed left; what they wrote is there." in page
    new = {"name": "Nob", "hand": "right", "fitter": "ann reed"}
    refused = sent(client, "/golfers/new", data=new)
    assert refused.status_code == 422
    assert "ann reed left" in refused.text.casefold()
    assert len(studio.store.golfers()) == 2
    page = sent(client, "/people/back", data={"name": "Ann Reed"}).text
    assert "Ann Reed fits here." in page
    assert sent(client, "/golfers/new", data=new).status_code == 200


def test_a_wrong_name_ends_nobodys_access(client: WebClient) -> None:
    answer = sent(client, "/people/leave", data={"name": "Nobody"})
    assert answer.status_code == 422
    assert "no fitter here is called" in answer.text.casefold()
    assert sent(client, "/people/back", data={"name": "Nobody"}).status_code == 404


def test_a_leaving_persons_tablet_is_shut_at_once_and_may_not_do_it_itself(
    studio: Studio,
) -> None:
    app = create_app(studio, access=Access(addresses=True, paired=True))
    pairing = app.state.pairing
    made = pairing.let_in(pairing.new_code().figures, name="Ann’s tablet", role="fitter")
    with asking(app, client=TABLET, host="192.0.2.7:8432") as tablet:
        tablet.cookies.set("loftwright_key", made.key)
        assert tablet.get("/people").status_code == 200
        assert "Leaves<span" not in tablet.get("/people").text
        assert tablet.post("/people/leave", data={"name": "Ann Reed"}).status_code == 403
        golfer = f"/fittings/{studio.store.outlines()[0].fitting}/golfer"
        assert "Copy for the golfer" in tablet.get(golfer).text
        assert "Erase this golfer" not in tablet.get(golfer).text
        with asking(app, client=MAIN_SCREEN) as main:
            assert "Erase this golfer" in main.get(golfer).text
            page = main.post("/people", data={"name": "Ann Reed"}).text
            assert f'value="{made.device.id}" checked' in page
            told = {"name": "Ann Reed", "devices": made.device.id}
            page = sent(main, "/people/leave", data=told).text
            assert "1 device withdrawn" in page
        shut = tablet.get("/people", follow_redirects=False)
        assert shut.headers["location"] == "/pair"
        assert tablet.post("/people/back", data={"name": "Ann Reed"}).status_code in {401, 403}


def test_two_records_become_one_golfers_and_two_again(client: WebClient, studio: Studio) -> None:
    first, second = (kept.value.id for kept in reversed(studio.store.golfers()))
    page = sent(client, "/people/merge", data={"first": first, "second": second}).text
    assert "The two records are one golfer’s from now on." in page
    assert "Take apart" in page
    known = client.get("/golfers/new").text
    assert "Ottoline Brambleby" in known
    assert "O. Brambleby" not in known
    again = sent(client, "/people/merge", data={"first": first, "second": second})
    assert again.status_code == 422
    page = sent(client, "/people/apart", data={"second": second}).text
    assert "Each record stands for itself again." in page
    assert "O. Brambleby" in client.get("/golfers/new").text
    assert sent(client, "/people/merge", data={"first": first}).status_code == 422


def test_a_golfer_who_is_hitting_is_not_merged(client: WebClient, studio: Studio) -> None:
    bay = a_bay(studio=studio)
    bay.ball()
    other = studio.store.golfers()[-1].value.id
    answer = sent(client, "/people/merge", data={"first": other, "second": bay.golfer.id})
    assert answer.status_code == 409
    assert "runs in Bay 1" in answer.text


def test_a_golfer_is_erased_only_when_the_initials_are_typed(
    client: WebClient, studio: Studio
) -> None:
    golfer = studio.store.golfers()[0].value.id
    page = sent(client, "/people/erase", data={"golfer": golfer})
    assert page.status_code == 200
    assert "nobody can bring them back" in page.text
    asked = f"/golfers/{golfer}/erase"
    for typed in ("", "X.Y."):
        answer = sent(client, asked, data={"initials": typed})
        assert answer.status_code == 422
        assert "O.B." in answer.text
    assert studio.store.identity(golfer).name == "O. Brambleby"
    page = sent(client, asked, data={"initials": "ob"})
    assert "The golfer is erased." in page.text
    assert "O. Brambleby" not in page.text
    assert "O. Brambleby" not in client.get("/golfers/new").text
    assert golfer not in studio.store.golfer_ids()


def test_what_is_kept_is_said_in_plain_words(client: WebClient) -> None:
    page = client.get("/what-is-kept")
    assert page.status_code == 200
    assert "goes when you ask" in page.text
    assert "5 years without a visit" in page.text
    assert sent(client, "/people/years", data={"years": "3", "version": "0"}).status_code == 200
    assert "3 years without a visit" in client.get("/what-is-kept").text


def test_who_did_not_agree_to_be_kept_is_due_after_the_day(
    client: WebClient, studio: Studio
) -> None:
    assert "Nobody is due." in client.get("/people").text
    clock = studio.clock
    assert isinstance(clock, Clock)
    clock.forward(2 * 24 * 60.0)
    assert "did not agree to be kept" in client.get("/people").text
