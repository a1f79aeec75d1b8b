"""A comparison over many golfers leaves the shop only as all of them agreed, and names nobody."""

import csv
import io
import json
import re
from dataclasses import replace
from html import unescape

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from loftwright.domain.golfer import Consents
from loftwright.domain.rack import Piece, State
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.publishable import publishable_hits
from loftwright.services.published_files import KINDS, file_of
from loftwright.services.published_kept import published_one, published_ones, withdraw
from loftwright.services.published_making import Making, Obtained, Order, Paid, quarters
from loftwright.services.shop_publishing import Looked, look, no_longer_agree, publish
from loftwright.services.studio import Studio
from loftwright.shop.publishing import Question
from published_shops import (
    BOTH,
    METER,
    PEOPLE,
    PublishedShop,
    a_publishing_shop,
    add_fitting,
    say_no,
)

MODELS = ("s-egret", "s-bittern", "s-curlew")
ASKED = Question(kind="shaft", models=MODELS, reference="s-curlew")
MAKING = Making()


@pytest.fixture(scope="module")
def whole() -> PublishedShop:
    """Return a shop that no test changes."""
    return a_publishing_shop(8)


@pytest.fixture
def shop() -> PublishedShop:
    """Return a shop of a test's own."""
    return a_publishing_shop(8)


@pytest.fixture(scope="module")
def looked(whole: PublishedShop) -> Looked:
    return look(whole.studio, ASKED, MAKING)


def test_a_comparison_stands_on_everybody_who_agreed(looked: Looked) -> None:
    assert looked.refusals == ()
    content = looked.content
    assert content is not None
    assert [line.name for line in content.models] == [
        "Bittern 60 g firm",
        "Curlew 60 g firm",
        "Egret 60 g firm",
    ]
    assert [line.golfers for line in content.models] == [8, 8, 8]
    assert all(line.balls % 10 == 0 for line in content.models)
    assert content.title == "Shafts against Curlew 60 g firm, golfers of any speed"
    assert "one sample only of Bittern 60 g firm" in content.block.samples
    assert content.block.golfers.startswith("8, who agreed")
    assert content.block.dates == "quarter 1 of 2026 to quarter 3 of 2026"
    assert content.block.device == "launch monitors that all measure ball speed and spin"
    assert content.block.ball == "one model, new"


def test_what_stands_out_is_told_and_what_does_not_is_not(looked: Looked) -> None:
    assert looked.content is not None
    spin = {
        (one.model, one.way): one.apart for one in looked.content.figures if one.quantity == "spin"
    }
    assert spin["Bittern 60 g firm", "same_swing"]
    assert not spin["Egret 60 g firm", "same_swing"]
    svg = file_of(looked.content, "svg").decode()
    assert "not told apart" in svg
    assert "+" in svg


def test_models_never_stand_in_the_order_of_what_was_found(whole: PublishedShop) -> None:
    reference_first = look(whole.studio, ASKED, replace(MAKING, order=Order.REFERENCE)).content
    assert reference_first is not None
    names = [line.name.split()[0] for line in reference_first.models]
    assert names == ["Curlew", "Bittern", "Egret"]


@pytest.mark.parametrize(
    "consents",
    [
        Consents(keep=True, publish=True),
        Consents(keep=True, shop_record=True),
        Consents(),
    ],
)
def test_one_consent_alone_is_not_enough(consents: Consents) -> None:
    shop = a_publishing_shop(6, consents=consents)
    assert publishable_hits(shop.studio) == ()
    refused = look(shop.studio, ASKED, MAKING)
    assert refused.content is None
    assert {one.missing for one in refused.refusals} == {5}


def test_minors_and_invented_golfers_are_in_no_comparison() -> None:
    shop = a_publishing_shop(5)
    add_fitting(shop.studio, 20, shop.effects, invented=True)
    young = Consents(keep=True, shop_record=True)
    add_fitting(shop.studio, 21, shop.effects, consents=young, minor=True)
    assert {hit.fitting for hit in publishable_hits(shop.studio)} == set(shop.fittings)


def test_a_recalled_sample_is_left_out_at_once(shop: PublishedShop) -> None:
    kept = shop.studio.store.item("p-s-bittern")
    assert isinstance(kept.value, Piece)
    locked = replace(kept.value, state=State.LOCKED, reason="maker's notice")
    shop.studio.store.put(locked, version=kept.version)
    refused = look(shop.studio, ASKED, MAKING)
    assert [(one.model, one.missing) for one in refused.refusals] == [("s-bittern", 5)]


def test_who_takes_the_consent_back_is_left_out_at_the_next_making(shop: PublishedShop) -> None:
    for golfer in shop.golfers[:3]:
        say_no(shop.studio, golfer)
    found = look(shop.studio, ASKED, MAKING)
    assert found.content is not None
    assert {line.golfers for line in found.content.models} == {5}
    say_no(shop.studio, shop.golfers[3])
    refused = look(shop.studio, ASKED, MAKING)
    assert refused.content is None
    assert "4 of 5" in refused.refusals[0].why


def test_golfers_of_one_speed_are_five_too(whole: PublishedShop) -> None:
    fast = look(whole.studio, replace(ASKED, golfers="fast"), MAKING)
    assert fast.content is not None
    assert "golfers of 100.0 mph of head speed and more" in fast.content.title
    middle = look(whole.studio, replace(ASKED, golfers="middle"), MAKING)
    assert [one.missing for one in middle.refusals] == [3, 3, 3]


def test_a_person_decides_after_a_look(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    with pytest.raises(InputError, match="nobody decided"):
        publish(shop.studio, ASKED, MAKING, by=" ", stamp=seen.stamp)
    with pytest.raises(ConflictError, match="changed since"):
        publish(shop.studio, ASKED, MAKING, by="Umberto", stamp="another")
    made = publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    assert (made.number, made.by, made.at) == (1, "Umberto", shop.studio.now())
    assert published_ones(shop.studio) == (made,)
    assert published_one(shop.studio, 1).content == seen.content
    with pytest.raises(NotFoundError):
        published_one(shop.studio, 2)


def test_what_changed_after_the_look_is_not_published(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    say_no(shop.studio, shop.golfers[0])
    with pytest.raises(ConflictError, match="changed since"):
        publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    for golfer in shop.golfers[1:4]:
        say_no(shop.studio, golfer)
    with pytest.raises(ConflictError, match="may not be published"):
        publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)


def test_what_was_published_before_a_consent_was_taken_back_says_so(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    made = publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    assert no_longer_agree(shop.studio, made) == 0
    say_no(shop.studio, shop.golfers[0])
    assert no_longer_agree(shop.studio, made) == 1
    gone = withdraw(shop.studio, 1, by="Umberto")
    assert gone.withdrawn_by == "Umberto"
    assert published_one(shop.studio, 1).withdrawn_at == shop.studio.now()
    assert withdraw(shop.studio, 1, by="another") == gone
    with pytest.raises(InputError):
        withdraw(shop.studio, 1, by="")


def test_two_comparisons_that_differ_by_a_few_golfers_are_refused(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    assert look(shop.studio, ASKED, MAKING).refusals == ()
    for number in range(30, 34):
        add_fitting(shop.studio, number, shop.effects)
        refused = look(shop.studio, ASKED, MAKING)
        assert refused.content is None
        assert f"tell of {number - 29} golfer" in refused.refusals[0].why
    add_fitting(shop.studio, 34, shop.effects)
    assert look(shop.studio, ASKED, MAKING).refusals == ()


def test_one_more_fitting_of_the_same_golfer_is_such_a_difference(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    add_fitting(shop.studio, 40, shop.effects, golfer=shop.golfers[2])
    assert "tell of 1 golfer:" in look(shop.studio, ASKED, MAKING).refusals[0].why


def test_a_withdrawn_one_is_known_outside_and_still_counts(shop: PublishedShop) -> None:
    seen = look(shop.studio, ASKED, MAKING)
    publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    withdraw(shop.studio, 1, by="Umberto")
    say_no(shop.studio, shop.golfers[0])
    assert look(shop.studio, ASKED, MAKING).refusals
    fast = replace(ASKED, golfers="fast")
    assert look(shop.studio, fast, MAKING).refusals, "all less the fast ones leaves the others"


def test_models_with_one_name_and_unknown_ones_are_refused(shop: PublishedShop) -> None:
    kept = shop.studio.store.item("s-egret")
    shop.studio.store.put(replace(kept.value, name="Curlew"), version=kept.version)  # type: ignore[arg-type]
    with pytest.raises(InputError, match="one name"):
        look(shop.studio, ASKED, MAKING)
    with pytest.raises(NotFoundError):
        look(shop.studio, replace(ASKED, models=("s-curlew", "gone")), MAKING)


def test_a_model_called_like_a_golfer_is_refused(shop: PublishedShop) -> None:
    kept = shop.studio.store.item("s-egret")
    named = replace(kept.value, name=f"Special of {PEOPLE[3]}")  # type: ignore[arg-type]
    shop.studio.store.put(named, version=kept.version)
    with pytest.raises(InputError, match="called like a golfer"):
        look(shop.studio, ASKED, MAKING)


def test_a_ball_that_few_golfers_hit_is_not_named() -> None:
    shop = a_publishing_shop(5)
    add_fitting(shop.studio, 50, shop.effects, ball="the yellow one of Tuesday")
    found = look(shop.studio, ASKED, MAKING)
    assert found.content is not None
    assert found.content.block.ball == "one model, new"


def secrets(shop: PublishedShop) -> list[str]:
    """Return everything that no file may hold."""
    store = shop.studio.store
    days = {kept.value.opened.isoformat() for kept in store.fittings()}
    names = [store.identity(golfer).name for golfer in shop.golfers]
    contacts = [store.identity(golfer).contact for golfer in shop.golfers]
    codes = {hit.golfer for hit in publishable_hits(shop.studio)}
    parts = [part for name in names for part in name.split()]
    pieces = list(store.rack().pieces)
    return [
        *shop.golfers,
        *shop.fittings,
        *days,
        *names,
        *contacts,
        *codes,
        *parts,
        *pieces,
        *MODELS,
        METER.name,
        "Umberto",
        "Nook bay",
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_no_file_holds_an_id_a_name_a_code_or_a_day(
    whole: PublishedShop, looked: Looked, kind: str
) -> None:
    assert looked.content is not None
    data = file_of(looked.content, kind)
    for secret in secrets(whole):
        assert secret.encode() not in data
    if kind != "png":
        text = re.sub(r"<style>.*?</style>", "", data.decode())
        assert not re.search(r"\d{4}-\d{2}", text)
        assert not re.search(r"[0-9a-f]{12,}", text)
    with pytest.raises(NotFoundError):
        file_of(looked.content, "xlsx")


@settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    obtained=st.sampled_from(Obtained),
    paid=st.sampled_from(Paid),
    order=st.sampled_from(Order),
    note=st.text(alphabet="abc deé<&>'\"=", max_size=60),
    fast=st.booleans(),
)
def test_whatever_a_person_says_no_file_tells_of_anyone(
    whole: PublishedShop, obtained: Obtained, paid: Paid, order: Order, note: str, fast: bool
) -> None:
    making = Making(obtained=obtained, paid=paid, order=order, note=note)
    content = look(whole.studio, replace(ASKED, golfers="fast" if fast else ""), making).content
    assert content is not None
    for kind in ("svg", "csv", "json"):
        data = file_of(content, kind).decode()
        for secret in secrets(whole):
            assert secret not in data
        assert str(paid) in unescape(data).replace("\n", " ") or kind == "svg"


def test_the_picture_bears_how_it_came_about(looked: Looked) -> None:
    assert looked.content is not None
    words = " ".join(re.findall(r">([^<]+)</text>", file_of(looked.content, "svg").decode()))
    for told in ("Samples", "How obtained", "Device class", "Funding", "Dates", "Ranges"):
        assert told in words
    assert "nobody paid for it" in words
    assert "No personal data in this picture." in words


def test_files_for_programs_say_the_same_as_the_picture(looked: Looked) -> None:
    content = looked.content
    assert content is not None
    rows = list(csv.DictReader(io.StringIO(file_of(content, "csv").decode())))
    told = json.loads(file_of(content, "json"))
    assert len(rows) == len(told["figures"]) == len(content.figures) == 2 * 2 * 6
    for row, other, figure in zip(rows, told["figures"], content.figures, strict=True):
        assert float(row["difference"]) == other["difference"]
        assert (row["told_apart"] == "yes") == figure.apart
        low, best, high = float(row["low_95"]), float(row["difference"]), float(row["high_95"])
        assert low <= best <= high
        assert figure.apart == (low > 0.0 or high < 0.0)
    assert "Funding" not in told["how"]
    assert told["how"]["funding"] == "nobody paid for it"


def test_a_quarter_is_the_finest_that_is_told(whole: PublishedShop) -> None:
    days = [kept.value.opened for kept in whole.studio.store.fittings()]
    assert quarters(days[:1]) == f"quarter {(days[0].month + 2) // 3} of {days[0].year}"
    assert quarters([]) == "not known"


def test_consents_of_the_samples_are_what_the_tests_say() -> None:
    assert BOTH.publish
    assert BOTH.shop_record
    assert isinstance(a_publishing_shop(0).studio, Studio)
