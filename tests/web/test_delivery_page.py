"""How the club came in, as a page and as a part of the bay's."""

from dataclasses import dataclass

from bays import MEASURED, Bay, a_bay
from loftwright.constants import MILLIMETRE
from loftwright.domain.acts import Marked, NotOurs, NotRead
from loftwright.domain.device import Origin
from loftwright.domain.fitting import Mark
from loftwright.services.ball_delivery import delivery_of
from loftwright.services.settings import Settings, change_settings, read_settings
from loftwright.web.pages import bay as bay_page
from loftwright.web.pages import delivery, mends, spin
from struck import USUAL, struck
from studios import app_of
from web_client import WebClient, asking

BALL_ONLY = dict.fromkeys(("ball speed", "launch", "direction", "spin", "axis"), Origin.MEASURED)
MARK = Mark(toe=6.0 * MILLIMETRE, high=-2.0 * MILLIMETRE)


@dataclass
class Asked:
    """A bay and its pages."""

    bay: Bay

    def get(self, path: str) -> tuple[int, str]:
        """Return status and text of a page of the fitting."""
        pages = (bay_page.router, delivery.router, mends.router, spin.router)
        with asking(app_of(self.bay.studio, *pages)) as client:
            assert isinstance(client, WebClient)
            answer = client.get(f"/fittings/{self.bay.fitting}/{path}")
            return answer.status_code, answer.text


def with_ball(*, mark: bool, origins: dict[str, Origin] | None = None) -> Asked:
    bay = a_bay(origins=MEASURED if origins is None else origins)
    bay.ball(struck(USUAL))
    if mark:
        bay.do(Marked(mark=MARK))
    return Asked(bay)


def test_it_opens_with_the_strike_then_the_picture_then_the_table() -> None:
    status, text = with_ball(mark=True).get("delivery")
    assert status == 200
    order = [
        text.index(one)
        for one in ("Ball 1 met the face 6 mm toe, 2 mm low.", "swing-pictures", "<tbody")
    ]
    assert order == sorted(order)
    for words in (
        "measured",
        "from the mark",
        "from the ball and the mark",
        "1.0° up",
        "out to in",
    ):
        assert words in text
    assert "Spin setting: the usual 0.87, 0.74 to 1.00" in text
    assert 'href="/spin"' in text


def test_without_a_mark_it_says_so_and_draws_no_strike() -> None:
    _, text = with_ball(mark=False, origins=BALL_ONLY).get("delivery")
    assert "Where ball 1 met the face cannot be told." in text
    assert "A toe strike and an open face send a ball to the same side." in text
    assert "Strike, heel to toe" not in text
    assert 'class="struck"' not in text
    assert "Left out, for nobody said that the device measures it: head speed, attack" in text


def test_attack_and_path_tell_the_strike_in_words_and_draw_none() -> None:
    _, text = with_ball(mark=False).get("delivery")
    assert "Ball 1 probably met the face" in text
    assert "from the ball, attack and path" in text
    assert 'class="struck"' not in text


def test_the_part_holds_the_same_without_the_page() -> None:
    asked = with_ball(mark=True)
    status, text = asked.get("delivery/part")
    assert status == 200
    assert text.lstrip().startswith("<h2>Ball 1 met the face")
    assert "<html" not in text


def test_a_ball_can_be_named_and_an_unknown_one_is_not_found() -> None:
    asked = with_ball(mark=True)
    first = asked.bay.now.balls[0].sequence
    asked.bay.ball(struck(USUAL))
    assert "Ball 1 met the face" in asked.get(f"delivery?ball={first}")[1]
    assert asked.get("delivery?ball=999")[0] == 404
    assert asked.get("delivery?ball=none")[0] == 422


def test_refusals_stand_in_plain_words() -> None:
    bay = a_bay()
    assert "No ball was read yet." in Asked(bay).get("delivery")[1]
    bay.ball(struck(USUAL, without=("spin", "axis")))
    assert "says nothing of the swing: spin and axis not read." in Asked(bay).get("delivery")[1]
    bay.do(NotRead())
    unread = bay.now.balls[-1].sequence
    assert "was hit and not read" in Asked(bay).get(f"delivery?ball={unread}")[1]
    formula = with_ball(mark=False, origins=MEASURED | {"spin": Origin.CALCULATED})
    assert "says nothing of the swing: spin calculated." in formula.get("delivery")[1]


def test_the_bay_links_the_last_ball_and_the_mends_every_ball() -> None:
    asked = with_ball(mark=True)
    ball = asked.bay.now.balls[0].sequence
    _, page = asked.get("bay")
    assert f'data-sheet="/fittings/{asked.bay.fitting}/delivery/part?ball={ball}"' in page
    assert f'/delivery?ball={ball}"' in asked.get("mends")[1]
    asked.bay.do(NotOurs(ball=ball))
    assert "/delivery?ball=" not in asked.get("mends")[1]
    assert "/delivery?ball=" not in asked.get("bay")[1]


def test_units_and_decimals_are_the_shops() -> None:
    asked = with_ball(mark=True)
    version = read_settings(asked.bay.studio).version
    change_settings(asked.bay.studio, Settings(units="metric", decimal="comma"), version=version)
    _, text = asked.get("delivery")
    assert "45,6 m/s" in text
    assert "1,0° up" in text


def test_no_ball_of_the_bay_waits_for_it() -> None:
    """The inverse is solved when somebody asks, never by a page of the bay."""
    asked = with_ball(mark=True)
    assert "1.0° up" not in asked.get("bay")[1]
    assert delivery_of(asked.bay.studio, asked.bay.fitting).told
