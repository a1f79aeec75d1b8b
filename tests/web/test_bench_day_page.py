"""The bench's own page: a master shaft read day by day tells a bench that moved."""

from collections.abc import Iterator
from html import unescape

import pytest

from loftwright.services.studio import Studio
from loftwright.web.pages import bench, bench_sheet
from studios import Clock, a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking

MARK = {
    "bench": "Bench 1",
    "length": "1168 mm",
    "station": "500 mm",
    "s0-span": "300 mm",
    "s0-load": "50",
    "s1-clamp": "127 mm",
    "s1-tip_mass": "205",
}
DAYS = (("0.501", "258.4"), ("0.503", "258.2"), ("0.499", "258.6"), ("0.502", "258.3"))


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, bench.router, bench_sheet.router)) as made:
        yield made


@pytest.fixture
def master(client: WebClient, studio: Studio) -> str:
    piece = a_shaft(studio, "Reedmace")[0].id
    assert client.post("/bench/masters", data=MARK | {"piece": piece}).status_code == 303
    return piece


def read(client: WebClient, clock: Clock, bent: str, swung: str = "") -> str:
    """Read the master on the next day and return what the page then says."""
    clock.forward(24 * 60)
    fields = {"bench": "Bench 1", "three_point": bent, "frequency": swung}
    assert client.post("/bench/days", data=fields).status_code == 303
    return shown(client)


def shown(client: WebClient) -> str:
    return unescape(client.get("/bench").text)


def test_a_bench_without_a_master_says_what_that_costs(client: WebClient, studio: Studio) -> None:
    assert "The rack has no shaft yet." in shown(client)
    a_shaft(studio, "Reedmace")
    text = shown(client)
    assert "No bench has a master shaft: nobody would see that one has moved." in text
    assert "Mark a master shaft" in text


@pytest.mark.usefixtures("master")
def test_a_master_is_read_on_three_days_before_it_tells(client: WebClient, clock: Clock) -> None:
    assert "Bench 1 has not read its master shaft today." in shown(client)
    said = [read(client, clock, *day) for day in DAYS]
    for day, left in enumerate(("3 days", "2 days", "1 day")):
        assert f"{left} more, then it can be told whether it moved." in said[day]
    assert "Bench 1 reads as it always did" in said[3]
    clock.forward(24 * 60)
    assert "Bench 1 has not read its master shaft today." in shown(client)


@pytest.mark.usefixtures("master")
def test_a_bench_that_reads_stiff_is_named_with_where_to_look(
    client: WebClient, clock: Clock
) -> None:
    for day in DAYS:
        read(client, clock, *day)
    text = read(client, clock, "0.470", "258.4")
    assert "Bench 1 reads 6.6 % stiff today (repeat 0.8 %): check load and span" in text
    assert "moved" in text
    text = read(client, clock, "0.501", "263.5")
    assert "stiff today" in text
    assert "check clamp and the weight on the end before you measure" in text


@pytest.mark.usefixtures("master")
def test_days_are_kept_and_none_is_changed(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    for day in DAYS:
        text = read(client, clock, *day)
    assert len(studio.store.bench_days()) == 4
    assert "26 November 2026" in text
    assert "0.501 mm" in text


@pytest.mark.usefixtures("master")
def test_days_of_another_set_up_do_not_count(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    for bent, _ in DAYS:
        read(client, clock, bent)
    piece = studio.store.bench_days()[0].piece
    client.post("/bench/masters", data=MARK | {"piece": piece, "s0-load": "40"})
    assert "looks" not in read(client, clock, "0.401").partition("</h1>")[0]
    assert "reads as it always did" not in shown(client).partition("</h1>")[0]


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"bench": ""}, "Name the bench."),
        ({"length": ""}, "Measure the master shaft."),
        ({"station": ""}, "Fill it in, or leave this kind empty altogether."),
        ({"s0-load": ""}, "Load is empty."),
        ({"s1-clamp": ""}, "Clamp is empty."),
        (
            {"station": "", "s0-span": "", "s0-load": "", "s1-clamp": "", "s1-tip_mass": ""},
            "Give how the master is read each day.",
        ),
    ],
)
def test_a_set_up_that_is_not_whole_is_told_at_its_field(
    client: WebClient, studio: Studio, changed: dict[str, str], told: str
) -> None:
    piece = a_shaft(studio, "Reedmace")[0].id
    answer = client.post("/bench/masters", data=MARK | {"piece": piece} | changed)
    assert answer.status_code == 422
    assert told in unescape(answer.text)


def test_only_a_shaft_can_be_a_master(client: WebClient, studio: Studio) -> None:
    a_shaft(studio, "Reedmace")
    answer = client.post("/bench/masters", data=MARK | {"piece": a_head(studio).id})
    assert "Only a shaft can be a master." in answer.text


@pytest.mark.usefixtures("master")
@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({}, "Type the deflection, the frequency, or both."),
        ({"three_point": "much"}, "'much' is not a number"),
        ({"frequency": "2584"}, "cpm"),
    ],
)
def test_a_reading_that_cannot_be_is_told_and_not_kept(
    client: WebClient, studio: Studio, fields: dict[str, str], told: str
) -> None:
    answer = client.post("/bench/days", data={"bench": "Bench 1", **fields})
    assert answer.status_code == 422
    assert told in unescape(answer.text)
    assert studio.store.bench_days() == ()
    assert client.post("/bench/days", data={"bench": "Bench 9"}).status_code == 404


def test_an_open_sheet_is_offered_to_go_on_with(client: WebClient, studio: Studio) -> None:
    piece = a_shaft(studio, "Reedmace")[0].id
    client.post(f"/rack/items/{piece}/bench", data={"version": "0", "length": "1168 mm"})
    assert "Reedmace firm: go on" in shown(client)
