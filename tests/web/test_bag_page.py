"""A golfer's bag: written down, changed, put back, taken over, out and in as a table."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from bags import a_bag, an_iron
from demos import a_demo
from loftwright.constants import DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.bag import Bag, BagKind, Known
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.terms import CalibrationClub
from loftwright.services.bags import keep_bag, read_bag, with_clubs
from loftwright.services.golfers import add_golfer
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from studios import app_of
from web_client import WebClient, asking

CLUB = {
    "version": "0",
    "before": "",
    "name": "7 iron",
    "kind": "iron",
    "loft": "33.5",
    "length": "37",
    "method": "ruler",
    "mass": "420",
    "balance": "28.1",
    "swingweight": "D2.5",
    "inertia": "2,670 kg cm²".replace(",", ""),
    "frequency": "302",
    "clamp": "5",
    "tip": "head",
}


@pytest.fixture
def golfer(studio: Studio) -> str:
    return add_golfer(studio, Golfer(id=""), Identity(name="Ottoline (invented)")).id


@pytest.fixture
def at(golfer: str) -> str:
    return f"/golfers/{golfer}/bag"


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def filled(studio: Studio, golfer: str) -> None:
    keep_bag(studio, golfer, with_clubs(Bag(), a_bag().clubs, "reading 11 clubs in"), version=0)


def test_an_empty_bag_says_what_to_do(client: WebClient, at: str) -> None:
    text = client.get(at).text
    assert "No club of this bag is written down yet." in text
    assert "Add the club" in text
    assert "Put back" not in text


def test_a_golfer_who_is_not_there_is_not_found(client: WebClient) -> None:
    assert client.get("/golfers/nobody/bag").status_code == 404


def test_a_club_is_written_down(client: WebClient, studio: Studio, golfer: str, at: str) -> None:
    answer = client.post(f"{at}/club", data=CLUB)
    assert answer.status_code == 303
    (club,) = read_bag(studio, golfer).bag.clubs
    assert (club.name, club.kind, club.method) == ("7 iron", BagKind.IRON, LengthMethod.RULER)
    assert club.loft == pytest.approx(33.5 * DEGREE)
    assert club.length == pytest.approx(37.0 * INCH)
    assert club.mass == pytest.approx(420.0 * GRAM)
    assert club.swingweight == 32.5
    assert club.inertia == pytest.approx(2670.0 * KILOGRAM_SQUARE_CENTIMETRE)
    assert club.timed is not None
    assert club.timed.tip_mass is None
    text = client.get(answer.headers["location"].partition("#")[0]).text
    assert "The club is written down." in text
    assert "302 cpm" in text
    assert "5.00\N{NO-BREAK SPACE}in clamp, own head" in text


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": ""}, "name"),
        ({"loft": "steep"}, "loft"),
        ({"length": "37 m"}, "length"),
        ({"length": "37 g"}, "length"),
        ({"swingweight": "H2"}, "swingweight"),
        ({"inertia": "heavy"}, "inertia"),
        ({"clamp": ""}, "clamp"),
        ({"frequency": ""}, "frequency"),
        ({"tip": "weight"}, "tip_mass"),
        ({"inertia": "", "period": "1.9"}, "pivot"),
        ({"period": "1.9", "pivot": "50"}, "inertia"),
        ({"inertia": "", "period": "1.9", "pivot": "50", "balance": ""}, "period"),
        ({"inertia": "", "period": "19", "pivot": "50"}, "period"),
        ({"kind": "spoon"}, "kind"),
    ],
)
def test_a_club_that_cannot_be_keeps_what_was_typed(
    client: WebClient,
    studio: Studio,
    golfer: str,
    at: str,
    changes: dict[str, str],
    field: str,
) -> None:
    answer = client.post(f"{at}/club", data={**CLUB, **changes, "mass": "421,25"})
    assert answer.status_code == 422
    assert f'id="n-f-{field}"' in answer.text
    assert re.search(r'<p class="wrong" id="n-f-' + field, answer.text)
    assert 'value="421,25"' in answer.text
    assert read_bag(studio, golfer).version == 0


def test_a_stale_page_keeps_what_was_typed(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    answer = client.post(f"{at}/club", data={**CLUB, "name": "3 iron"})
    assert answer.status_code == 409
    assert "Nothing was changed: the bag was changed meanwhile." in answer.text
    assert 'value="3 iron"' in answer.text
    version = re.search(r'name="version" value="(\d+)"', answer.text)
    assert version is not None
    again = client.post(f"{at}/club", data={**CLUB, "name": "3 iron", "version": version[1]})
    assert again.status_code == 303


def test_a_club_opened_and_saved_again_loses_no_digit_and_no_doubt(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    for name in ("Driver", "4 wood", "7 iron", "Putter", "7 iron, old"):
        club = read_bag(studio, golfer).bag.club(name)
        page = client.get(at, params={"club": name}).text
        answer = client.post(f"{at}/club", data=held(page))
        assert answer.status_code == 303
        assert read_bag(studio, golfer).bag.club(name) == club


def held(page: str) -> dict[str, str]:
    """Return what the club's form of a page holds."""
    form = page.partition('id="club"')[2].partition("</section>")[0]
    fields = {
        name: unescape(value)
        for name, value in re.findall(r'<input[^>]* name="([^"]+)"[^>]*? value="([^"]*)"', form)
        if name not in {"method", "tip", "spare"}
    }
    ticked = r'<input type="(?:radio|checkbox)" name="([^"]+)" value="([^"]+)" ?checked'
    fields |= dict(re.findall(ticked, form))
    chosen = re.search(r'<option value="([^"]+)" selected', form)
    assert chosen is not None
    return {**fields, "kind": chosen[1]}


def test_a_changed_figure_takes_the_bench_s_own_doubt(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    page = client.get(at, params={"club": "Driver"}).text
    client.post(f"{at}/club", data={**held(page), "length": "45.25", "name": "Big one"})
    club = read_bag(studio, golfer).bag.club("Big one")
    assert club is not None
    assert club.length == pytest.approx(45.25 * INCH)
    assert Known.LENGTH not in club.doubts
    assert read_bag(studio, golfer).bag.club("Driver") is None


def test_what_stands_out_is_said_first_and_marked(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    text = client.get(at).text
    assert "7 iron is 3.0 points heavier in swingweight than an even run of the irons." in text
    assert "+3.0 off the run" in text
    assert re.search(r'<tr class="lead-row"><th scope="row">7 iron<', text)
    assert "from weight and balance" in text
    assert "by pendulum" in text
    assert "by ruler" in text
    assert "cpm per half inch shorter" in text


def test_a_club_that_no_run_can_place_is_named(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    bare = replace(an_iron(7), length=None)
    bag = with_clubs(Bag(), (bare, replace(an_iron(8), loft=None), an_iron(9)), "typing")
    keep_bag(studio, golfer, bag, version=0)
    said = "Not compared: 8 iron for want of a loft; 7 iron for want of a length."
    assert said in client.get(at).text


def test_a_club_taken_out_is_put_back(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    gone = client.post(f"{at}/remove", data={"version": "1", "name": "7 iron"})
    assert gone.status_code == 303
    text = client.get(at).text
    assert "Put back: taking 7 iron out" in text
    assert "7 iron is 3.0 points" not in text
    assert client.post(f"{at}/back", data={"version": "2"}).status_code == 303
    assert read_bag(studio, golfer).bag.clubs == a_bag().clubs


def test_what_is_not_there_is_told_and_nothing_changes(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    assert client.post(f"{at}/back", data={"version": "0"}).status_code == 409
    assert client.post(f"{at}/take", data={"version": "0", "from": "own"}).status_code == 409
    answer = client.post(f"{at}/remove", data={"version": "0", "name": "2 iron"})
    assert answer.status_code == 409
    assert "no club of this bag is called" in answer.text
    assert client.get(at, params={"club": "2 iron"}).status_code == 404
    assert read_bag(studio, golfer).version == 0


def test_a_fifteenth_club_in_play_is_told_at_its_tick(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    clubs = tuple(replace(an_iron(7), name=f"Club {number}") for number in range(14))
    keep_bag(studio, golfer, with_clubs(Bag(), clubs, "typing"), version=0)
    answer = client.post(f"{at}/club", data={**CLUB, "version": "1"})
    assert answer.status_code == 422
    assert "15 clubs in play are more than a round allows." in answer.text
    assert client.post(f"{at}/club", data={**CLUB, "version": "1", "spare": "yes"}).is_redirect


def test_lengths_stand_beside_limits_without_a_ruling(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    long = replace(an_iron(4), name="Long one", kind=BagKind.WOOD, length=46.02 * INCH)
    keep_bag(studio, golfer, with_clubs(Bag(), (long,), "typing"), version=0)
    text = client.get(at).text
    assert "1 length by the 60-degree plane: below the limit as measured." in text
    assert "Long one: measured length" not in text
    client.post(f"{at}/rules", data={"version": "1", "local_length": "yes"})
    text = client.get(at).text
    assert (
        "Long one: measured length 46.02 in (by the 60-degree plane) ± 0.05 in. Limit of the "
        "competition’s local rule 46.00 in: too close to call, ask the governing body."
    ) in text
    assert "no ruling: only The R&amp;A and the USGA decide" in text
    assert read_terms(studio).terms.edition in text


def test_readings_that_cannot_all_be_right_are_told(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    driver = a_bag().club("Driver")
    assert driver is not None
    wrong = replace(driver, swingweight=40.0)
    keep_bag(studio, golfer, with_clubs(Bag(), (wrong,), "typing"), version=0)
    assert "Driver: the scale reads E0.0, weight and balance point give D2.2" in (
        client.get(at).text
    )


def test_the_shop_s_own_scale_is_used(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    terms = read_terms(studio)
    club = CalibrationClub(mass=0.310, balance=33.25 * INCH, reads=30.0)
    change_terms(studio, replace(terms.terms, calibration=club), version=terms.version)
    assert "D3.9" in client.get(at).text


def test_a_bag_goes_out_as_a_table_and_comes_in(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    filled(studio, golfer)
    table = client.get(f"{at}.csv")
    assert table.headers["content-type"].startswith("text/csv")
    files = {"file": ("bag.csv", table.content, "text/csv")}
    answer = client.post(f"{at}/table", data={"version": "1"}, files=files)
    assert answer.status_code == 303
    bag = read_bag(studio, golfer).bag
    assert [one.name for one in (*bag.in_play, *bag.spares)] == [
        one.name for one in (*a_bag().in_play, *a_bag().spares)
    ]
    assert bag.before == a_bag().clubs


def test_a_table_with_lines_that_cannot_be_stays_out_and_names_each(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    text = "name,kind,loft_deg\n7 iron,iron,34\n8 iron,irn,38\n9 iron,iron,x\n"
    files = {"file": ("mine.csv", text.encode(), "text/csv")}
    answer = client.post(f"{at}/table", data={"version": "0"}, files=files)
    assert answer.status_code == 422
    said = unescape(answer.text)
    assert "line 3, kind: 'irn' is no kind of club." in said
    assert "line 4, loft_deg: 'x' is no number." in said
    assert read_bag(studio, golfer).version == 0


@pytest.mark.parametrize("name", ["", "photo.csv"])
def test_no_table_is_told_at_its_field(client: WebClient, at: str, name: str) -> None:
    files = {"file": (name, b"\xff\xd8\xff", "text/csv")} if name else None
    answer = client.post(f"{at}/table", data={"version": "0"}, files=files)
    assert answer.status_code == 422
    assert 'class="wrong"' in answer.text


def test_the_golfer_s_page_leads_to_the_bag_and_the_own_club_comes_over(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_demo(studio).in_progress
    golfer = studio.store.fitting(fitting).value.golfer
    assert f'href="/golfers/{golfer}/bag"' in client.get(f"/fittings/{fitting}/golfer").text
    at = f"/golfers/{golfer}/bag"
    assert "From the rack: loft" in client.get(at).text
    assert client.post(f"{at}/take", data={"version": "0", "from": "own"}).status_code == 303
    (club,) = read_bag(studio, golfer).bag.clubs
    assert club.name.endswith(", own")
    assert "Take over" not in client.get(at).text


def test_a_metric_shop_with_a_decimal_comma_reads_and_writes_so(
    client: WebClient, studio: Studio, golfer: str, at: str
) -> None:
    known = read_settings(studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(studio, metric, version=known.version)
    filled(studio, golfer)
    text = client.get(at).text
    assert "3,0 points heavier" in text
    assert "965 mm" in text
    assert "cpm per 12,7 mm shorter" in text
    data = {**CLUB, "version": "1", "name": "3 iron", "length": "990,6", "clamp": "127"}
    data |= {"balance": "713,5", "swingweight": "D2,5", "loft": "20,5", "mass": "410,5"}
    assert client.post(f"{at}/club", data=data).status_code == 303
    club = read_bag(studio, golfer).bag.club("3 iron")
    assert club is not None
    assert club.length == pytest.approx(39.0 * INCH)
    assert club.swingweight == 32.5
