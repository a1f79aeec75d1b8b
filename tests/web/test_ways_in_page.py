"""The ways in: a table with its doubts, a paper sheet in its true order, a watched folder."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Closed
from loftwright.services.acting import act
from loftwright.services.watching import Watches
from loftwright.web.app import create_app
from web_client import WebClient, asking

TABLE = "Club;Ball speed (mph);Launch (deg);Spin (rpm)\nOwn;148,1;12,2;2500\nAsh;147,0;11,0;2600\n"


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def client(bay: Bay) -> Iterator[WebClient]:
    with asking(create_app(bay.studio)) as asked:
        yield asked


def at(bay: Bay, way: str = "") -> str:
    return f"/fittings/{bay.fitting}/ways-in{way}"


def speeds(bay: Bay) -> list[float]:
    return [
        round(one.numbers.ball_speed / 0.44704, 1)
        for one in bay.now.swings
        if one.numbers is not None and one.numbers.ball_speed is not None
    ]


def test_the_page_says_what_is_in_and_shows_a_ball_to_copy(bay: Bay, client: WebClient) -> None:
    empty = client.get(at(bay)).text
    assert "No ball is in yet" in empty
    assert f"/api/fittings/{bay.fitting}/shots" in empty
    bay.ball()
    assert "1 ball is in, by feed." in client.get(at(bay)).text


def test_a_pasted_table_comes_in_and_twice_comes_in_once(bay: Bay, client: WebClient) -> None:
    first = client.post(at(bay, "/table"), data={"text": TABLE})
    assert "2 balls came in." in first.text
    again = client.post(at(bay, "/table"), data={"text": TABLE})
    assert "2 were there already" in again.text
    assert speeds(bay) == [148.1, 147.0]
    assert [one.club for one in bay.now.swings] == ["Own", "Ash"]


def test_an_uploaded_file_comes_in(bay: Bay, client: WebClient) -> None:
    answer = client.post(at(bay, "/table"), files={"file": ("shots.csv", TABLE.encode())})
    assert "2 balls came in." in answer.text
    assert speeds(bay) == [148.1, 147.0]


def test_a_doubtful_table_is_asked_about_and_an_answer_settles_it(
    bay: Bay, client: WebClient
) -> None:
    doubtful = "Club;Speed;Launch;Spin\nOwn;148;12;2500\nAsh;147;11;2600\n"
    asked = client.post(at(bay, "/table"), data={"text": doubtful})
    assert asked.status_code == 422
    assert "could be ball speed or head speed" in asked.text
    assert "Own;148;12;2500" in asked.text
    assert bay.now.swings == ()
    way = '--column "Speed=ball speed[mph]"'
    settled = client.post(at(bay, "/table"), data={"text": doubtful, "answer-0": way})
    assert "2 balls came in." in settled.text
    assert speeds(bay) == [148.0, 147.0]


def test_an_answer_that_settles_nothing_is_named(bay: Bay, client: WebClient) -> None:
    answer = client.post(at(bay, "/table"), data={"text": TABLE, "answer-0": "who knows"})
    assert answer.status_code == 422
    assert "settles nothing" in answer.text
    assert bay.now.swings == ()


def test_what_is_no_table_is_refused_and_kept_in_the_field(bay: Bay, client: WebClient) -> None:
    answer = client.post(at(bay, "/table"), data={"text": "nothing of the kind"})
    assert answer.status_code == 422
    assert "nothing of the kind" in answer.text
    assert bay.now.swings == ()


def test_a_paper_sheet_stands_where_its_balls_were_hit(bay: Bay, client: WebClient) -> None:
    bay.hand("Ash")
    bay.balls(3)
    before = speeds(bay)
    rows = "after 1\n1 ash 150 12 2500 mark 5t 3h\n2 unread\nafter 3\n3 ash 151 12 2500"
    answer = client.post(at(bay, "/sheet"), data={"sheet": "s1", "rows": rows})
    assert "3 balls of the sheet came in." in answer.text
    assert speeds(bay) == [before[0], 150.0, *before[1:], 151.0]
    assert [one.numbers is None for one in bay.now.balls] == [
        False,
        False,
        True,
        False,
        False,
        False,
    ]
    marked = [one.mark for one in bay.now.balls if one.mark is not None]
    assert [(round(1000 * one.toe), round(1000 * one.high)) for one in marked] == [(5, 3)]
    again = client.post(at(bay, "/sheet"), data={"sheet": "s1", "rows": rows})
    assert "3 were there already" in again.text
    assert len(bay.now.balls) == 6


def test_a_sheet_that_names_no_ball_is_refused_whole(bay: Bay, client: WebClient) -> None:
    answer = client.post(
        at(bay, "/sheet"), data={"sheet": "s1", "rows": "after 99\n1 ash 150 12 2500"}
    )
    assert answer.status_code == 422
    assert "no ball 99" in answer.text
    assert bay.now.swings == ()


def test_the_sheet_prints_as_pdf(bay: Bay, client: WebClient) -> None:
    answer = client.get(at(bay, "/sheet.pdf"))
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_a_closed_fitting_offers_no_way_in(bay: Bay, client: WebClient) -> None:
    act(bay.studio, bay.fitting, [Closed()])
    page = client.get(at(bay)).text
    assert "takes corrections, no balls" in page
    assert "<textarea" not in page
    assert client.post(at(bay, "/table"), data={"text": TABLE}).status_code == 422


def test_a_folder_path_must_be_whole(bay: Bay, client: WebClient) -> None:
    answer = client.post(at(bay, "/folder"), data={"path": "shots"})
    assert answer.status_code == 422
    assert "no whole path" in answer.text


def test_a_watched_file_feeds_the_fitting_from_the_moment_it_is_watched(
    bay: Bay, tmp_path: Path
) -> None:
    file = tmp_path / "shots.csv"
    head, old, new = TABLE.splitlines(keepends=True)
    file.write_text(head + old, encoding="utf-8")
    watches = Watches(bay.studio)
    watches.start(bay.fitting, str(file))
    assert watches.look() == 0
    with file.open("a", encoding="utf-8") as device:
        device.write(new)
    assert watches.look() == 1
    assert speeds(bay) == [147.0]
    again = Watches(bay.studio)
    again.resume()
    again.look()
    assert speeds(bay) == [147.0]
    again.stop(bay.fitting)
    assert again.path(bay.fitting) == ""


def test_what_stands_in_a_file_can_be_taken_too(bay: Bay, tmp_path: Path) -> None:
    file = tmp_path / "shots.csv"
    file.write_text(TABLE, encoding="utf-8")
    watches = Watches(bay.studio)
    watches.start(bay.fitting, str(file), take_present=True)
    assert watches.look() == 2
    assert [report.balls for report in watches.reports(bay.fitting)] == [2]


def test_balls_that_cannot_be_taken_wait_and_the_page_says_why(bay: Bay, tmp_path: Path) -> None:
    file = tmp_path / "shots.csv"
    file.write_text(TABLE, encoding="utf-8")
    watches = Watches(bay.studio)
    watches.start(bay.fitting, str(file), take_present=True)
    act(bay.studio, bay.fitting, [Closed()])
    assert watches.look() == 0
    assert any("closed" in report.error for report in watches.reports(bay.fitting))
