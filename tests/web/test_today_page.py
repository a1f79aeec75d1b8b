"""Today: who needs what now, and an old fitting read again with nothing kept."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from tempfile import gettempdir

import pytest

from loftwright.constants import DEGREE, INCH
from loftwright.domain.acts import Closed, Planned, VisitOpened, WarmUpDone
from loftwright.domain.fitting import DeviceCard, PlanCard
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.studio import Studio
from loftwright.services.training import DealOptions, deal_fitting
from loftwright.web.pages import today
from studios import Clock, a_club, a_head, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, today.router)) as made:
        yield made


@pytest.fixture(scope="module")
def old_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("old") / "shots.csv"
    deal_fitting(DealOptions(seed=7, clubs=3, balls=24), path)
    return path


def a_fitting(studio: Studio, name: str = "Ottoline Brambleby") -> str:
    own = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH)
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name=name), own=own)
    return open_for_new(studio, visitor, bay="Bay 1").id


def a_planned_fitting(studio: Studio) -> str:
    fitting = a_fitting(studio)
    club = a_club(studio, a_head(studio), "Reedmace", 60.0, 45.0)
    plan_visit(studio, fitting, Wish(assemblies=(club.id,), balls=20), seed=3)
    return fitting


def test_an_empty_day_says_what_is_enough(client: WebClient) -> None:
    text = client.get("/").text
    assert "Nothing is booked today. The bench is yours." in text
    assert "a keyboard will do" in text
    assert "nothing is booked</title>" in text
    assert 'href="/golfers/new"' in text


def test_a_golfer_without_a_plan_waits_for_one(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    text = client.get("/").text
    assert "Ottoline waits for a plan." in text
    assert f'href="/fittings/{fitting}/plan"' in text


def test_a_planned_golfer_waits_for_the_first_swing(client: WebClient, studio: Studio) -> None:
    a_planned_fitting(studio)
    text = client.get("/").text
    assert "Ottoline is planned and waits for the first swing." in text
    assert "2 clubs and 20 balls are planned: ask about pain, then start." in text


def open_visit(studio: Studio, fitting: str) -> None:
    plan = next(
        entry.act.plan for entry in studio.record(fitting) if isinstance(entry.act, Planned)
    )
    visit = VisitOpened(day=studio.today(), bay="Bay 1", device=DeviceCard(name="Keyboard"))
    act(studio, fitting, [visit, Planned(plan=replace(plan, seconds=3600.0))])


def test_who_is_in_the_bay_comes_first(client: WebClient, studio: Studio, clock: Clock) -> None:
    fitting = a_planned_fitting(studio)
    a_fitting(studio, "Caspar Thistlewick")
    open_visit(studio, fitting)
    act(studio, fitting, [WarmUpDone()])
    clock.forward(42.0)
    text = client.get("/").text
    assert "Ottoline has 18 minutes and 20 balls left; Caspar waits for a plan." in text
    assert text.index("Go to the bay") < text.index("Plan<span")
    assert "Bay 1, 0 of 20 balls hit" in text


def test_a_closed_fitting_of_today_is_done(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    fitting = a_planned_fitting(studio)
    open_visit(studio, fitting)
    clock.forward(50.0)
    act(studio, fitting, [Closed()])
    text = client.get("/").text
    assert "Everything of today is done. The bench is yours." in text
    assert "Closed today. The report is ready." in text
    assert "Done before" not in text
    clock.at += timedelta(days=1)
    text = client.get("/").text
    assert "Nothing is booked today" in text
    assert "25 November 2026" in text[text.index("Done before") :]
    assert f'href="/fittings/{fitting}/report"' in text


def test_a_fitting_of_another_day_is_open_for_another(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    fitting = a_planned_fitting(studio)
    open_visit(studio, fitting)
    clock.at += timedelta(days=2)
    text = client.get("/").text
    assert "fitting is open for another day." in text
    assert "last here on 25 November" in text


def test_a_visit_past_midnight_stays_within_the_day(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    clock.at = clock.at.replace(hour=23, minute=50)
    fitting = a_planned_fitting(studio)
    open_visit(studio, fitting)
    assert client.get("/").status_code == 200


def test_limits_of_earlier_days_are_forgotten(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"), limits="no bending")
    who = open_for_new(studio, visitor, bay="Bay 1").golfer
    day = studio.today()
    clock.at += timedelta(days=1)
    client.get("/")
    assert studio.store.limits(who, day) == ""


def test_a_plan_of_nothing_to_hit_is_not_counted_as_left(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_planned_fitting(studio)
    visit = VisitOpened(day=studio.today(), bay="Bay 1", device=DeviceCard(name="Keyboard"))
    act(studio, fitting, [visit, Planned(plan=PlanCard(sets=()))])
    assert "Ottoline has hit every planned ball." in client.get("/").text


def test_an_old_file_is_read_and_nothing_kept(
    client: WebClient, studio: Studio, old_file: Path
) -> None:
    answer = client.post(
        "/read",
        data={"hand": "right"},
        files={"file": ("shots.csv", old_file.read_bytes(), "text/csv")},
    )
    assert answer.status_code == 200
    assert "24 rows read" in answer.text
    assert "Nothing of the file is kept." in answer.text
    assert "which club is straighter" in answer.text
    table = answer.text[answer.text.index('aria-label="Clubs"') :]
    assert table.count('class="k k-own"') == 1
    assert table.count('class="k k-ash"') == 1
    assert table.count('class="k k-birch"') == 1
    assert studio.store.fittings() == ()


def test_no_file_is_told_at_its_field(client: WebClient) -> None:
    answer = client.post("/read", data={"hand": "right"})
    assert answer.status_code == 422
    assert "No file was chosen. Choose a table of shots, then read it." in answer.text


def test_a_file_that_is_no_table_names_itself_and_no_folder_of_ours(client: WebClient) -> None:
    files = {"file": ("notes.csv", b"a,b\n1,2\n", "text/csv")}
    answer = client.post("/read", data={"hand": "right"}, files=files)
    assert answer.status_code == 422
    assert gettempdir() not in answer.text


def test_an_own_club_that_is_not_in_the_file_is_told_at_its_field(
    client: WebClient, old_file: Path
) -> None:
    files = {"file": ("shots.csv", old_file.read_bytes(), "text/csv")}
    answer = client.post("/read", data={"hand": "right", "own": "Gamer"}, files=files)
    assert answer.status_code == 422
    assert "no club is called" in answer.text.replace("&#39;", "'")
    assert 'id="n-read-own"' in answer.text


def test_a_doubt_is_asked_and_its_answer_settles_it(client: WebClient, old_file: Path) -> None:
    text = old_file.read_text(encoding="utf-8").replace("ball_speed_mph", "Col A")
    files = {"file": ("shots.csv", text.encode(), "text/csv")}
    asked = client.post("/read", data={"hand": "right"}, files=files)
    assert asked.status_code == 422
    assert "The file can be read in more than one way" in asked.text
    assert "Col A is ball speed in mph" in asked.text
    settled = client.post(
        "/read",
        data={"hand": "right", "text": text, "answer-0": '--column "Col A=ball speed[mph]"'},
    )
    assert settled.status_code == 200, settled.text
    assert "24 rows read" in settled.text
