"""A golfer is erased from behind a comparison that was really published, which stands or goes."""

from datetime import timedelta

from loftwright.services.erasing import erase_everywhere
from loftwright.services.erasing_look import look as look_before
from loftwright.services.erasing_look import said
from loftwright.services.erasing_published import WHY
from loftwright.services.published_kept import NAME, published_one, withdraw
from loftwright.services.published_making import Making
from loftwright.services.shop_folder import code_of_golfer
from loftwright.services.shop_publishing import look, no_longer_agree, publish, token_of
from loftwright.shop.publishing import Question
from published_shops import PublishedShop, a_publishing_shop
from studios import Clock, studio_in_memory

ASKED = Question(kind="shaft", models=("s-egret", "s-bittern", "s-curlew"), reference="s-curlew")
MAKING = Making()


def published(golfers: int) -> PublishedShop:
    """Return a shop with a comparison of so many golfers that has left it."""
    clock = Clock()
    shop = a_publishing_shop(golfers, studio=studio_in_memory(clock))
    seen = look(shop.studio, ASKED, MAKING)
    publish(shop.studio, ASKED, MAKING, by="Umberto", stamp=seen.stamp)
    clock.at += timedelta(hours=1)
    return shop


def test_a_comparison_of_enough_others_stands_as_it_was() -> None:
    shop = published(6)
    studio, golfer = shop.studio, shop.golfers[0]
    before = published_one(studio, 1)
    token = token_of(code_of_golfer(golfer))
    assert token in before.golfers
    assert any("Comparison 1" in line for line in said(look_before(studio, golfer)))
    assert erase_everywhere(studio, golfer).withdrawn == ()
    after = published_one(studio, 1)
    assert after.withdrawn_at is None
    assert after.golfers == before.golfers - {token} | {"gone 1"}
    assert after.content == before.content
    assert token not in studio.store.setting(NAME).value
    assert no_longer_agree(studio, after) == 1


def test_with_fewer_than_five_left_it_is_withdrawn_and_says_why() -> None:
    shop = published(5)
    studio = shop.studio
    assert erase_everywhere(studio, shop.golfers[0]).withdrawn == (1,)
    gone = published_one(studio, 1)
    assert gone.withdrawn_by == WHY
    assert gone.withdrawn_at == studio.now()
    assert gone.golfers >= {"gone 1"}
    assert erase_everywhere(studio, shop.golfers[1]).withdrawn == ()
    assert published_one(studio, 1).withdrawn_at == gone.withdrawn_at


def test_no_later_comparison_tells_of_the_golfer_by_what_differs() -> None:
    shop = published(7)
    erase_everywhere(shop.studio, shop.golfers[0])
    (refused,) = look(shop.studio, ASKED, MAKING).refusals
    assert "beside comparison 1 it would tell of 1 golfer" in refused.why
    erase_everywhere(shop.studio, shop.golfers[1])
    assert published_one(shop.studio, 1).golfers >= {"gone 1", "gone 2"}
    (refused,) = look(shop.studio, ASKED, MAKING).refusals
    assert "it would tell of 2 golfers" in refused.why


def test_a_comparison_that_a_person_withdrew_keeps_who_decided() -> None:
    shop = published(5)
    gone = withdraw(shop.studio, 1, by="Umberto")
    assert erase_everywhere(shop.studio, shop.golfers[0]).withdrawn == ()
    kept = published_one(shop.studio, 1)
    assert (kept.withdrawn_by, kept.withdrawn_at) == ("Umberto", gone.withdrawn_at)
    assert "gone 1" in kept.golfers
