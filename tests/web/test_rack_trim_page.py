"""What a cut would do: before, after and apart, with set-up and noise, and nothing kept."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from urllib.parse import urlencode

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, INCH, MILLIMETRE
from loftwright.domain.bench_figures import SetUp
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly
from loftwright.domain.shaft_preview import Trims, preview
from loftwright.services.measuring import keep_profile
from loftwright.services.rack_out import rack_json
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_item, rack_shape, rack_trim
from shafts import a_profile
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    pages = (rack.router, rack_item.router, rack_shape.router, rack_trim.router)
    with asking(app_of(studio, *pages)) as made:
        yield made


@pytest.fixture
def profile(studio: Studio) -> MeasuredProfile:
    """Keep the profile of a shaft in the rack."""
    piece, _ = a_shaft(studio, "Reedmace")
    return keep_profile(studio, replace(a_profile(piece=piece.id), butt_diameter=0.600 * INCH))


def asked(client: WebClient, profile: MeasuredProfile, **fields: str) -> str:
    """Return the page's words after a look."""
    answer = client.get(f"/rack/items/{profile.piece}/trim?{urlencode(fields)}")
    assert answer.status_code == 200, words(answer.text)
    return words(answer.text)


def words(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", unescape(page)))


def rise(profile: MeasuredProfile, trims: Trims, set_up: SetUp | None = None) -> str:
    found = preview(profile, trims, set_up or SetUp()).change.frequency
    assert found is not None
    return f"{found.value / CYCLE_PER_MINUTE:+.1f} cpm"


def test_the_shaft_as_it_is_stands_with_its_set_up(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile)
    assert re.search(r"Reedmace firm as it is swings at \d{3} cpm \(5\.00 in clamp, 205 g\)", text)
    assert "Difference" not in text


def test_a_tip_trim_is_told_before_after_and_apart(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile, tip="0.5")
    told = rise(profile, Trims(tip=0.5 * INCH))
    set_up = r"\d{3} to \d{3} \(5\.00 in clamp, 205 g\)\."
    assert re.search(rf"0\.50 in off the tip: {re.escape(told)}, {set_up}", text)
    assert "5.00 in clamp, 205 g on the tip" in text
    assert "1 lbf ft, from the clamp to 1.00 in before the tip" in text
    for name in ("EI, butt", "EI, tip", "Weight", "Balance point", "Length"):
        assert name in text
    assert "45.98 in 45.48 in −0.50 in" in text


def test_another_clamp_and_weight_are_said_with_every_frequency(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile, butt="1", clamp="4", weight="250")
    told = rise(profile, Trims(butt=INCH), SetUp(clamp=4.0 * INCH, weight=0.25))
    assert f"1.00 in off the butt: {told}" in text
    assert "(4.00 in clamp, 250 g)" in text
    assert "4.00 in clamp, 250 g on the tip" in text


def test_build_up_adds_a_size_in_the_hand_and_no_stiffness(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile, wraps="2", tape="0.13")
    assert "2 wraps of 0.13 mm tape add 0.020 in in the hand and no stiffness." in text
    assert "Build-up copies the size in the hand, not the stiffness" in text
    assert "0.600 in 0.620 in +0.020 in" in text
    assert "0.0 cpm" in text


def test_tape_on_a_butt_that_a_cut_laid_bare_tells_what_it_adds(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile, wraps="1", tape="0.13", butt="1")
    assert "0.600 in not measured +0.010 in of tape" in text


def test_another_butt_says_what_it_takes_for_granted(
    client: WebClient, profile: MeasuredProfile
) -> None:
    text = asked(client, profile, butt_diameter="0.62", wall="1.2")
    trims = Trims(butt_diameter=0.62 * INCH, wall=1.2 * MILLIMETRE)
    assert f"A butt of 0.620 in: {rise(profile, trims)}" in text
    assert "a judgement, not a measurement" in text


def test_many_at_once_are_told_together(client: WebClient, profile: MeasuredProfile) -> None:
    text = asked(client, profile, tip="0.5", butt="0.5", wraps="1", tape="0.13")
    assert "All of it together: +" in text


@pytest.mark.parametrize(
    ("fields", "field", "says"),
    [
        ({"tip": "half"}, "tip", "half"),
        ({"tip": "-1"}, "tip", "less than nothing"),
        ({"tip": "30"}, "tip", "leave 406 mm of shaft"),
        ({"butt": "30"}, "butt", "leave 406 mm of shaft"),
        ({"wraps": "40", "tape": "0.1"}, "wraps", "whole number from 0 to 12"),
        ({"wraps": "2"}, "tape", "go together"),
        ({"tape": "0.13"}, "wraps", "go together"),
        ({"wraps": "2", "tape": "4"}, "tape", "inches instead of mm"),
        ({"butt_diameter": "0.62"}, "wall", "go together"),
        ({"wall": "1"}, "butt_diameter", "go together"),
        ({"butt_diameter": "6", "wall": "1"}, "butt_diameter", "outside 12 to 18 mm"),
        ({"butt_diameter": "0.62", "wall": "11"}, "wall", "does not fit a tube"),
        ({"clamp": "40"}, "clamp", ""),
        ({"clamp": "-1"}, "clamp", "less than nothing"),
        ({"weight": "205 kg"}, "weight", ""),
    ],
)
def test_a_fault_stands_beside_its_field_and_the_shaft_as_it_is(
    client: WebClient, profile: MeasuredProfile, fields: dict[str, str], field: str, says: str
) -> None:
    asks = dict.fromkeys(("tip", "butt", "wraps", "tape", "butt_diameter", "wall"), "")
    query = urlencode(asks | {"clamp": "5", "weight": "205"} | fields)
    answer = client.get(f"/rack/items/{profile.piece}/trim?{query}")
    assert answer.status_code == 422
    found = re.search(rf'<p class="wrong" id="n-f-{field}">(.*?)</p>', answer.text)
    assert found is not None, re.findall(r'class="wrong".*', answer.text)
    assert says in unescape(found[1])
    assert answer.text.count('class="wrong"') == 1
    assert "as it is swings at" in answer.text


def test_a_butt_that_nobody_measured_cannot_be_made_larger(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio, "Rush")
    kept = keep_profile(studio, a_profile(piece=piece.id))
    answer = client.get(f"/rack/items/{kept.piece}/trim?butt_diameter=0.62&wall=1.2")
    assert answer.status_code == 422
    assert "the butt diameter of this shaft was not measured" in answer.text.lower()


def test_what_was_not_weighed_nor_twisted_is_not_told(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio, "Rush")
    bare = replace(
        a_profile(piece=piece.id, grams=None, twist=False), balance=None, balance_error=None
    )
    kept = keep_profile(studio, bare)
    text = asked(client, kept)
    assert "Rush firm as it is: not weighed, so its frequency is not known." in text
    assert "Not measured, so not told: torque and frequency, weight and balance point." in text
    text = asked(client, kept, tip="0.5")
    assert "it was not weighed, so what the frequency does is not told" in text
    assert re.search(r"Frequency [^A-Z]* not measured not measured –", text)
    assert "Torque 1 lbf ft, from the clamp to 1.00 in before the tip not measured" in text


def test_an_unseen_tip_is_said_first(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio, "Rush")
    kept = keep_profile(studio, a_profile(piece=piece.id, blind_from=0.96))
    text = asked(client, kept, tip="0.5")
    assert "Its tip is not seen: what the cut does there is not said" in text
    assert "EI, tip mostly not seen mostly not seen mostly not seen" in text


def test_metric_shops_with_a_comma_type_and_read_millimetres(
    client: WebClient, studio: Studio, profile: MeasuredProfile
) -> None:
    kept = read_settings(studio)
    changed = replace(kept.settings, units="metric", decimal="comma")
    change_settings(studio, changed, version=kept.version)
    text = asked(client, profile, tip="12,7", wraps="1", tape="0,13")
    told = rise(profile, Trims(tip=0.5 * INCH)).replace(".", ",")
    assert f"13 mm off the tip and 1 wrap of 0,13 mm tape: {told}" in text
    assert "(127 mm clamp, 205 g)" in text
    assert "15,24 mm 15,50 mm +0,26 mm" in text


def test_a_shaft_that_nobody_measured_says_how_to_get_there(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio, "Reedmace")
    page = client.get(f"/rack/items/{piece.id}/trim").text
    assert "Reedmace firm is not measured: what a cut does to it cannot be said." in page
    assert f"/rack/items/{piece.id}/shape#type" in page
    assert f"/rack/items/{piece.id}/trim" in client.get(f"/rack/items/{piece.id}/shape").text


def test_only_shafts_of_the_shop_have_the_page(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    piece, _ = a_shaft(studio)
    owned = Assembly(id="own", head=head.id, shaft=piece.id, length=1.15, owner="g1")
    studio.store.put(owned, version=None)
    for item in (head.id, piece.id, "nowhere"):
        assert client.get(f"/rack/items/{item}/trim").status_code == 404


def test_looking_keeps_nothing(
    client: WebClient, studio: Studio, profile: MeasuredProfile
) -> None:
    before = rack_json(studio)
    asked(client, profile, tip="1", wraps="2", tape="0.1")
    assert rack_json(studio) == before
