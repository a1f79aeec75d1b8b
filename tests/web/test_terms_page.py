"""The shop's terms: typed, kept, refused at their fields, in the shop's own units."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)
from loftwright.domain.order import PriceKind
from loftwright.domain.terms import Adhesive, CalibrationClub, ListedPrice, Terms
from loftwright.domain.tolerances import Tolerances
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from loftwright.web.terms_forms import TOLERANCE_FIELDS
from loftwright.web.views.terms import TOLERANCE_WORDS
from studios import app_of
from web_client import WebClient, asking

TERMS = Terms(
    prices=(
        ListedPrice(what="Grip, cord", kind=PriceKind.PART, price=1450, usual=True),
        ListedPrice(what="Building a driver", kind=PriceKind.LABOUR, price=4000, usual=True),
        ListedPrice(what="Tip weight", kind=PriceKind.PART, price=300),
    ),
    tax=0.2,
    deposit=0.5,
    lead_days=10,
    builder="Quill and Daughter",
    cannot=("tip trim",),
    adhesives=(Adhesive(name="Slow two-part", hours=24.0),),
    tolerances=Tolerances(mass=1.5 * GRAM),
    calibration=CalibrationClub(mass=0.310, balance=33.25 * INCH, reads=29.5),
    edition="Equipment Rules, looked up in May",
)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def held(page: str) -> dict[str, str]:
    """Return what the form of a page holds, as a browser would send it."""
    form = page.partition('class="terms"')[2].partition("</form>")[0]
    boxes = re.findall(r'<input type="checkbox" name="([^"]+)" value="([^"]+)"( checked)?', form)
    plain = re.sub(r'<input type="checkbox"[^>]*>', "", form)
    fields = {
        name: unescape(value)
        for name, value in re.findall(r'<input[^>]*? name="([^"]+)"[^>]*? value="([^"]*)"', plain)
    }
    for name, options in re.findall(r'<select name="([^"]+)".*?>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r'value="([^"]+)" selected', options)
        assert chosen is not None
        fields[name] = chosen[1]
    return fields | {name: value for name, value, checked in boxes if checked}


def opened(client: WebClient) -> dict[str, str]:
    return held(client.get("/settings/terms").text)


def test_a_shop_that_settled_nothing_is_told_what_a_quote_begins_with(client: WebClient) -> None:
    text = client.get("/settings/terms").text
    assert "A new quote here begins with an empty list, ready in 14 days." in text
    assert "No club has calibrated your swingweight scale" in text
    assert "a person looks it up" in text
    assert 'href="/settings/terms"' in client.get("/settings").text


def test_every_tolerance_has_a_field_and_its_words() -> None:
    names = {one.name for one in TOLERANCE_FIELDS}
    assert names == set(Tolerances.__dataclass_fields__) == set(TOLERANCE_WORDS)


@pytest.mark.parametrize("units", ["trade", "metric"])
def test_terms_opened_and_saved_again_lose_no_digit(
    client: WebClient, studio: Studio, units: str
) -> None:
    known = read_settings(studio)
    settings = replace(known.settings, units=units, decimal="comma")
    change_settings(studio, settings, version=known.version)
    change_terms(studio, TERMS, version=0)
    data = opened(client)
    assert data["tax"] == "20"
    assert data["price_0"] == "14,50"
    assert client.post("/settings/terms", data=data).status_code == 303
    assert read_terms(studio).terms == TERMS


def test_what_is_usual_is_counted_in_the_sentence(client: WebClient, studio: Studio) -> None:
    change_terms(studio, TERMS, version=0)
    known = read_settings(studio)
    change_settings(studio, replace(known.settings, currency="EUR"), version=known.version)
    text = client.get("/settings/terms").text
    assert (
        "A new quote here begins at 54.50 EUR and 20 % tax: 2 usual lines, ready in 10 days."
    ) in text
    # 310 g at 33.25 in is 28.28 points on the usual scale (hand-worked).
    assert "Your scale reads this club as C9.5, 1.2 points above the usual one" in text


def test_terms_are_typed_in_any_unit_and_fraction(client: WebClient, studio: Studio) -> None:
    data = opened(client)
    data |= {
        "what_0": "Ferrule",
        "price_0": "2,5",
        "usual_0": "yes",
        "what_2": "Cutting and gluing",
        "kind_2": "labour",
        "price_2": "30",
        "tax": "8.1 %",
        "deposit": "25",
        "valid_days": "21",
        "glue_1": "Quick one",
        "hours_1": "6,5",
        "tolerance_length": "1/8",
        "tolerance_balance": "3 mm",
        "tolerance_grip": "½ mm",
        "tolerance_swingweight": "0,7",
        "tolerance_inertia": "15 kg cm²",
        "tolerance_frequency": "3",
        "tolerance_loft": "0.25",
        "tolerance_mass": "2.5 g",
        "club_mass": "310",
        "club_balance": "33.25",
        "club_reads": "c9.5",
        "edition": "Another edition",
    }
    assert client.post("/settings/terms", data=data).status_code == 303
    terms = read_terms(studio).terms
    assert terms.prices == (
        ListedPrice(what="Ferrule", kind=PriceKind.PART, price=250, usual=True),
        ListedPrice(what="Cutting and gluing", kind=PriceKind.LABOUR, price=3000),
    )
    assert terms.tax == pytest.approx(0.081)
    assert (terms.deposit, terms.valid_days) == (0.25, 21)
    assert terms.adhesives == (Adhesive(name="Quick one", hours=6.5),)
    told = terms.tolerances
    assert told.length == pytest.approx(INCH / 8.0)
    assert told.balance == pytest.approx(3.0 * MILLIMETRE)
    assert told.grip == pytest.approx(0.5 * MILLIMETRE)
    assert told.swingweight == 0.7
    assert told.inertia == pytest.approx(15.0 * KILOGRAM_SQUARE_CENTIMETRE)
    assert told.frequency == pytest.approx(3.0 * CYCLE_PER_MINUTE)
    assert told.loft == pytest.approx(0.25 * DEGREE)
    assert told.mass == pytest.approx(2.5 * GRAM)
    assert told.part_mass == Tolerances().part_mass
    assert terms.calibration is not None
    assert terms.calibration.mass == pytest.approx(0.310)
    assert terms.calibration.balance == pytest.approx(33.25 * INCH)
    assert terms.calibration.reads == 29.5
    assert terms.edition == "Another edition"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"what_0": "Ferrule"}, "price_0"),
        ({"price_0": "5"}, "what_0"),
        ({"what_0": "Ferrule", "price_0": "dear"}, "price_0"),
        ({"what_0": "A", "price_0": "1", "what_1": "a", "price_1": "2"}, "what_1"),
        ({"what_0": "A", "price_0": "1", "kind_0": "gift"}, "kind_0"),
        ({"tax": "120"}, "tax"),
        ({"deposit": "-5"}, "deposit"),
        ({"lead_days": "soon"}, "lead_days"),
        ({"valid_days": "731"}, "valid_days"),
        ({"follow_up_days": ""}, "follow_up_days"),
        ({"cannot_0": "yes"}, "builder"),
        ({"glue_0": "Slow"}, "hours_0"),
        ({"hours_0": "24"}, "glue_0"),
        ({"glue_0": "Slow", "hours_0": "2400"}, "hours_0"),
        ({"glue_0": "Slow", "hours_0": "a day"}, "hours_0"),
        ({"tolerance_length": ""}, "tolerance_length"),
        ({"tolerance_length": "0"}, "tolerance_length"),
        ({"tolerance_mass": "2 in"}, "tolerance_mass"),
        ({"tolerance_inertia": "-3"}, "tolerance_inertia"),
        ({"tolerance_swingweight": "some"}, "tolerance_swingweight"),
        ({"tolerance_swingweight": "nan"}, "tolerance_swingweight"),
        ({"club_mass": "310"}, "club_balance"),
        ({"club_mass": "310", "club_balance": "33.25", "club_reads": "Z1"}, "club_reads"),
        ({"club_mass": "310", "club_balance": "33.25", "club_reads": "E9"}, "club_reads"),
        ({"club_mass": "-310", "club_balance": "33.25", "club_reads": "C8"}, "club_reads"),
        ({"edition": " "}, "edition"),
    ],
)
def test_terms_that_cannot_be_are_told_at_their_field(
    client: WebClient, studio: Studio, changes: dict[str, str], field: str
) -> None:
    data = {**opened(client), "what_2": "Kept words", "price_2": "7", **changes}
    answer = client.post("/settings/terms", data=data)
    assert answer.status_code == 422
    assert re.search(rf'<p class="wrong" id="n-[ft]-{field}">', answer.text)
    assert 'value="Kept words"' in answer.text
    assert read_terms(studio).version == 0


def test_a_stale_page_keeps_what_was_typed(client: WebClient, studio: Studio) -> None:
    data = {**opened(client), "builder": "Somebody new"}
    change_terms(studio, TERMS, version=0)
    answer = client.post("/settings/terms", data=data)
    assert answer.status_code == 409
    assert "Not saved" in answer.text
    assert 'value="Somebody new"' in answer.text
    assert read_terms(studio).terms == TERMS
    again = client.post("/settings/terms", data=held(answer.text))
    assert again.status_code == 303
    assert read_terms(studio).terms.builder == "Somebody new"


def test_a_tolerance_that_no_bench_can_tell_is_flagged(client: WebClient, studio: Studio) -> None:
    change_terms(studio, Terms(tolerances=Tolerances(length=0.02 * INCH)), version=0)
    text = unescape(client.get("/settings/terms").text)
    assert "A reading is off by up to 0.05 in: tighter than a bench can tell." in text
    assert "Tighter than a bench can tell is the tolerance of length and club MOI." in text


def test_a_swingweight_s_tolerance_says_where_only_a_scale_can_tell_it(
    client: WebClient, studio: Studio
) -> None:
    words = "worked out from weight and balance it is off by up to 0.6."
    assert words in client.get("/settings/terms").text
    change_terms(studio, Terms(tolerances=Tolerances(swingweight=1.0)), version=0)
    assert words not in client.get("/settings/terms").text


def test_a_line_is_taken_off_by_emptying_it(client: WebClient, studio: Studio) -> None:
    change_terms(studio, TERMS, version=0)
    data = opened(client) | {"what_1": "", "price_1": ""}
    assert client.post("/settings/terms", data=data).status_code == 303
    assert [one.what for one in read_terms(studio).terms.prices] == ["Grip, cord", "Tip weight"]
