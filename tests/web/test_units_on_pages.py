"""Every page in the shop's own units and with its decimal mark; paper and pictures with them."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest

from bags import a_bag
from demos import a_demo
from final_checks import a_built_job, a_receipt, readings
from loftwright.domain.bag import Bag
from loftwright.domain.check_acts import Outcome
from loftwright.domain.sheet_acts import Deviated
from loftwright.services.bags import keep_bag, read_bag, with_clubs
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.evidence_runner import FRESH
from loftwright.services.final_check import keep_check
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.training import DealOptions, deal_fitting
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking

SHOP = (
    "/",
    "/rack",
    "/bays",
    "/people",
    "/settings",
    "/read",
    "/proof",
    "/follow-ups",
    "/settings/terms",
    "/build",
    "/shop",
    "/shop/comparisons",
)
STEPS = ("golfer", "plan", "bay", "evidence", "choice", "report", "mends", "order", "build")
NAMES = re.compile(r"Wayfarer(?: Broad)? \d+\.\d")
"""Names of invented heads hold a loft as their maker writes it."""

OTHERS = re.compile(
    r"\b(yd|mph|ft|yards?|feet|inch(es)?)\b|\d in(?= ?[.,;|])|°F|(?<![\d.])\d+\.\d+(?![\d.])"
)
"""Words of trade units, and figures with a decimal point."""

OF_ITS_OWN = {
    "/settings": ("Trade: yd, mph, in, °F", "Point: 12.5"),
    "measured": ("A figure may carry another unit: 1149 mm, 7 oz.", "As D2.1, as read."),
}
"""What a page quotes that is not its own figure: the choices of the settings."""


@pytest.fixture(scope="module")
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="module")
def metric(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture(scope="module")
def made(metric: Studio) -> DemoStudio:
    demo = a_demo(metric)
    known = read_settings(metric)
    settings = replace(known.settings, units="metric", decimal="comma")
    change_settings(metric, settings, version=known.version)
    return demo


@pytest.fixture(scope="module")
def client(metric: Studio, made: DemoStudio) -> Iterator[WebClient]:
    assert made.finished
    with asking(app_of(metric)) as asked:
        yield asked


def said(page: str, path: str = "") -> str:
    """Return what a page says and what its fields hold, without what it quotes."""
    bare = re.sub(r"<(script|style).*?</\1>", "", page, flags=re.DOTALL)
    held = re.findall(r'<input[^>]* value="([^"]*)"', bare)
    words = re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", bare)))
    for quoted in OF_ITS_OWN.get(path, ()):
        words = words.replace(quoted, "")
    return NAMES.sub("", f"{words} {' | '.join(held)}")


def others(text: str) -> list[str]:
    """Return words of trade units and figures with a decimal point."""
    found = OTHERS.finditer(text)
    return [text[max(0, one.start() - 30) : one.end() + 10] for one in found]


@pytest.mark.parametrize("path", SHOP)
def test_a_page_of_the_shop_speaks_in_its_units(client: WebClient, path: str) -> None:
    assert others(said(client.get(path).text, path)) == []


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("which", ["finished", "in_progress"])
def test_a_page_of_a_fitting_speaks_in_the_shop_s_units(
    client: WebClient, made: DemoStudio, which: str, step: str
) -> None:
    answer = client.get(f"/fittings/{getattr(made, which)}/{step}")
    assert answer.status_code == 200
    assert others(said(answer.text)) == []


@pytest.mark.parametrize("which", ["finished", "in_progress"])
def test_a_bag_does(client: WebClient, metric: Studio, made: DemoStudio, which: str) -> None:
    golfer = metric.store.fitting(getattr(made, which)).value.golfer
    at = f"/golfers/{golfer}/bag"
    assert others(said(client.get(at).text)) == []
    if not read_bag(metric, golfer).bag.clubs:
        keep_bag(metric, golfer, with_clubs(Bag(), a_bag().clubs, "typing"), version=0)
    assert others(said(client.get(at).text)) == []
    for name in ("Driver", "4 wood", "7 iron"):
        assert others(said(client.get(at, params={"club": name}).text)) == []


def test_every_figure_of_the_last_ball_has_its_unit_by_itself(
    client: WebClient, metric: Studio, made: DemoStudio, clock: Clock
) -> None:
    known = read_settings(metric)
    at = f"/fittings/{made.in_progress}/bay"
    whole = "started {side}, curved {side} · {n} {h} high · carry {n} {u}, run {n} {u}"

    def told(unit: str, height: str) -> str:
        side = rf"(\d+ {unit} (left|right)|0 {unit})"
        return whole.format(side=side, n=r"\d+", u=unit, h=height)

    metres = said(client.get(at).text)
    plain = replace(known.settings, units="trade", decimal="point")
    version = change_settings(metric, plain, version=known.version)
    clock.at += 2.0 * FRESH
    yards = said(client.get(at).text)
    change_settings(metric, known.settings, version=version)
    clock.at += 2.0 * FRESH
    assert re.search(told("m", "m"), metres)
    assert re.search(told("yd", "ft"), yards)


def test_every_item_of_the_rack_does(client: WebClient) -> None:
    items = sorted(set(re.findall(r'href="(/rack/items/[^"#?]+)"', client.get("/rack").text)))
    assert len(items) > 8
    for item in items:
        assert others(said(client.get(item).text)) == [], item
        if "Measured card" in client.get(item).text:
            assert others(said(client.get(f"{item}/measured").text, "measured")) == [], item


def test_a_device_s_form_keeps_the_decimal_mark(client: WebClient) -> None:
    devices = re.findall(r'href="(/settings\?device=[^"#]+)', client.get("/settings").text)
    assert devices
    for device in devices:
        assert others(said(client.get(unescape(device)).text, "/settings")) == []


@pytest.mark.parametrize("which", ["finished", "in_progress"])
def test_the_paper_follows_and_counts_balls(
    client: WebClient, made: DemoStudio, which: str
) -> None:
    at = f"/fittings/{getattr(made, which)}"
    paper = pypdfium2.PdfDocument(BytesIO(client.get(f"{at}/report.pdf").content))
    text = " ".join(page.get_textpage().get_text_bounded() for page in paper)
    assert others(re.sub(r"Computed by loftwright \S+", "", text)) == []
    assert re.search(r"\d,\d", text)
    assert not re.search(r"\b[Rr]ows?\b|--json", text)
    assert re.search(r"\d+ balls: \d+ used", text)
    assert "Paper and pictures speak in metres and millimetres, with a decimal comma" in (
        client.get(f"{at}/report").text
    )


def test_an_order_speaks_in_them_from_the_quote_to_the_workshop(
    client: WebClient, metric: Studio, made: DemoStudio
) -> None:
    at = f"/fittings/{made.finished}/order"
    kept = {"what-1": "Club", "price-1": "450,50", "tax": "7,7", "few_known": "yes"}
    more = {"lead_days": "14", "valid_until": "2027-12-25", "club": "Ash, half an inch longer"}
    form = client.get(at, params={"club": "Ash, half an inch longer"})
    assert others(said(form.text).replace("half an inch", "")) == []
    assert client.post(f"{at}/quote", data=kept | more).status_code == 303
    assert others(said(client.get(at).text)) == []
    asked = {"name": "R", "quoted": str(len(metric.store.job_record(made.finished)))}
    assert client.post(f"{at}/agree", data=asked).status_code == 303
    page = client.get(at).text
    assert others(said(page)) == []
    assert "485,19" in page
    assert others(client.get(f"{at}.txt").text) == []
    for copy in ("golfer", "workshop"):
        paper = pypdfium2.PdfDocument(BytesIO(client.get(f"{at}.pdf?copy={copy}").content))
        assert others(NAMES.sub("", paper[0].get_textpage().get_text_bounded())) == []


@pytest.mark.parametrize("picture", ["choice", "ranges", "strikes"])
def test_a_published_picture_follows(client: WebClient, made: DemoStudio, picture: str) -> None:
    svg = client.get(f"/fittings/{made.finished}/pictures/{picture}.svg").text
    text = re.sub(r"Loftwright \d[\d.]*", "", said(svg))
    assert others(text) == []
    if picture != "strikes":
        assert re.search(r"(, | )m\b", text)


def test_an_old_file_in_yards_is_read_in_metres(client: WebClient, tmp_path: Path) -> None:
    path = tmp_path / "shots.csv"
    deal_fitting(DealOptions(seed=7, clubs=3, balls=24), path)
    files = {"file": ("shots.csv", path.read_bytes(), "text/csv")}
    answer = client.post("/read", data={"hand": "right"}, files=files)
    assert answer.status_code == 200
    text = said(answer.text)
    assert others(text) == []
    assert text.count("m from Own") >= 2
    assert "Where it finishes, m" in text
    assert "on one standard hole of" in text


def test_the_decision_for_other_programs_keeps_the_units_of_its_keys(
    client: WebClient, metric: Studio, made: DemoStudio
) -> None:
    metres = client.get(f"/api/fittings/{made.finished}/decision").json()
    known = read_settings(metric)
    plain = replace(known.settings, units="trade", decimal="point")
    version = change_settings(metric, plain, version=known.version)
    trade = client.get(f"/api/fittings/{made.finished}/decision").json()
    change_settings(metric, known.settings, version=version)
    assert {key for key in trade if trade[key] != metres[key]} <= {"sentence", "objection"}
    assert metres["sentence"] != trade["sentence"]


def test_a_finished_club_s_receipt_does_on_page_and_paper(
    client: WebClient, metric: Studio
) -> None:
    light = Deviated(key="head.mass_g", sheet="195", built="192.5", why="as it came")
    trim = Deviated(key="shaft.tip_trim_inch", sheet="0", built="0.25", why="")
    fitting = a_built_job(metric, light, trim)
    wrong = readings(grip_inch__value=0.9, neck_inch__value=4.2, neck_inch__u95=0.05)
    rework = a_receipt(metric, wrong, outcome=Outcome.REWORK, rework="tape")
    keep_check(metric, fitting, rework)
    keep_check(metric, fitting, a_receipt(metric, readings(), reason="so be it"))
    at = f"/fittings/{fitting}/final-check"
    answer = client.get(at)
    assert answer.status_code == 200
    assert others(said(answer.text)) == []
    for number in (1, 2):
        paper = pypdfium2.PdfDocument(client.get(f"{at}/receipt.pdf?round={number}").content)
        text = " ".join(page.get_textpage().get_text_bounded() for page in paper)
        assert others(text) == []
        assert re.search(r"\d,\d", text)
