"""The training bay's pages: cases, the real bay of one, the call, and silence until then."""

from collections.abc import Iterator

import pytest

from loftwright.domain.acts import HandedOver
from loftwright.services.acting import act
from loftwright.services.studio import Studio
from loftwright.training.case_files import case_named, known_cases
from studios import app_of, studio_in_memory
from training_rooms import sets_of
from web_client import WebClient, asking

JSON = {"Accept": "application/json"}


@pytest.fixture
def shop() -> Studio:
    return studio_in_memory()


class Trainee:
    """Somebody who plays a case in a browser without scripts."""

    def __init__(self, client: WebClient, room: Studio) -> None:
        self.client, self.room = client, room
        self.fitting = ""

    def opens(self, case: str, seed: str = "") -> None:
        """Open a case."""
        answer = self.client.post("/training", data={"case": case, "seed": seed})
        assert answer.status_code == 303, answer.text
        place = answer.headers["location"]
        assert place.endswith("/bay")
        self.fitting = place.split("/")[2]

    def hits(self, sets: int) -> None:
        """Hit the first sets of the order of play."""
        for club, balls in sets_of(self.room, self.fitting)[:sets]:
            act(self.room, self.fitting, [HandedOver(club=club)])
            for _ in range(balls):
                assert self.client.post(f"/fittings/{self.fitting}/virtual").status_code == 303

    def calls(self, club: str) -> None:
        """Call a club."""
        answer = self.client.post(f"/training/{self.fitting}", data={"call": club})
        assert answer.status_code == 303, answer.text

    def page(self) -> str:
        """Return the page of the call, or what was true after it."""
        answer = self.client.get(f"/training/{self.fitting}")
        assert answer.status_code == 200
        return answer.text


@pytest.fixture
def trainee(shop: Studio) -> Iterator[Trainee]:
    app = app_of(shop)
    with asking(app) as client:
        yield Trainee(client, app.state.training.studio())
    app.state.training.close()


def test_the_page_of_cases_tells_who_comes_and_nothing_of_the_truth(trainee: Trainee) -> None:
    page = trainee.client.get("/training").text
    for case in known_cases():
        assert case.golfer in page
        assert not any(club.shaft in page for club in case.clubs)
    assert 'href="/training" aria-current="page"' in page
    assert "join nothing of the shop" in page


def test_a_case_opens_in_the_real_bay_with_the_call_as_its_last_station(trainee: Trainee) -> None:
    trainee.opens("larkspur")
    bay = trainee.client.get(f"/fittings/{trainee.fitting}/bay").text
    assert "Prudence Larkspur (invented)" in bay
    assert "Virtual golfer hits" in bay
    assert f'href="/training/{trainee.fitting}">The call' in bay
    assert "Final check" not in bay
    for step in ("evidence", "choice"):
        page = trainee.client.get(f"/fittings/{trainee.fitting}/{step}")
        assert page.status_code == 200


def test_nothing_of_the_truth_is_readable_before_the_call(trainee: Trainee) -> None:
    trainee.opens("larkspur")
    trainee.hits(6)
    at = f"/fittings/{trainee.fitting}"
    told = [
        trainee.client.get(path).text
        for path in (
            *(
                f"{at}/{step}"
                for step in ("bay", "evidence", "choice", "report", "golfer", "plan")
            ),
            *(f"/api{at}/shots", f"/api{at}/decision"),
            *("/training", f"/training/{trainee.fitting}"),
        )
    ]
    hidden = (
        *(line.strip() for line in case_named("larkspur").lesson.strip().split("\n")),
        *("Truly worth", "truly", "lesson", "spell"),
    )
    for page in told:
        assert [one for one in hidden if one in page] == []
    files = [path for path in trainee.room.folder.rglob("*") if path.is_file()]
    for path in files:
        assert not any(one.encode() in path.read_bytes() for one in hidden[:4]), path


def test_a_call_shows_what_was_true_and_ends_the_balls(trainee: Trainee) -> None:
    trainee.opens("larkspur")
    trainee.hits(12)
    assert "Which club is it, after 36 balls of 36?" in trainee.page()
    trainee.calls("Ash")
    page = trainee.page()
    assert "costs 4.3 yd, 0.27 strokes a round" in page
    assert "struck 11 mm lower" in page
    assert "Look at the marks before blaming a shaft" in page
    hit = trainee.client.post(f"/fittings/{trainee.fitting}/virtual", headers=JSON)
    assert hit.status_code == 409
    again = trainee.client.post(f"/training/{trainee.fitting}", data={"call": "Own"})
    assert again.status_code == 409
    assert "Called Ash: look back" in trainee.client.get("/training").text


def test_a_call_before_the_first_ball_sends_to_the_bay(trainee: Trainee) -> None:
    trainee.opens("sorrel")
    assert "Let the golfer hit first" in trainee.page()
    answer = trainee.client.post(f"/training/{trainee.fitting}", data={"call": "Own"})
    assert answer.status_code == 422


@pytest.mark.parametrize("call", ["", "Oak", "own"])
def test_a_call_that_cannot_be_is_asked_again(trainee: Trainee, call: str) -> None:
    trainee.opens("sorrel")
    trainee.hits(1)
    answer = trainee.client.post(f"/training/{trainee.fitting}", data={"call": call})
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert "Truly worth" not in answer.text


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"case": ""}, "Choose a case."),
        ({"case": "nobody"}, "no case is called"),
        ({"case": "sorrel", "seed": "many"}, "many"),
        ({"case": "sorrel", "seed": "-1"}, "-1"),
    ],
)
def test_a_case_that_cannot_be_opened_is_asked_again(
    trainee: Trainee, fields: dict[str, str], words: str
) -> None:
    answer = trainee.client.post("/training", data=fields)
    assert answer.status_code == 422
    assert words.lower() in answer.text.lower()


def test_another_seed_is_another_play_of_the_same_truth(trainee: Trainee) -> None:
    pages = []
    for seed in ("3", "4"):
        trainee.opens("teasel", seed)
        trainee.hits(4)
        trainee.calls("too close")
        pages.append(trainee.page())
    for page in pages:
        assert "costs 5.7 yd" in page
        assert "Swift" in page


def test_a_training_case_is_no_fitting_of_the_day_and_no_golfer_of_the_shop(
    shop: Studio, trainee: Trainee
) -> None:
    trainee.opens("larkspur")
    assert "Larkspur" not in trainee.client.get("/").text
    assert shop.store.golfers() == ()
    assert shop.store.fittings() == ()
    assert "Wren" not in trainee.client.get("/rack").text


def test_what_is_no_training_fitting_is_not_found(trainee: Trainee) -> None:
    for name in ("nobody", f"training-{'0' * 36}"):
        assert trainee.client.get(f"/training/{name}").status_code == 404
        assert trainee.client.post(f"/training/{name}", data={"call": "Own"}).status_code == 404
