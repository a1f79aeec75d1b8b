"""What we saw: figures, the parts of a difference, odd balls, strikes and what may be said."""

import re
from collections.abc import Iterator

import pytest

from loftwright.bay.replay import replay
from loftwright.domain.acts import OddBall, Vetoed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from loftwright.web.pages import acts, evidence
from studios import app_of
from web_client import WebClient, asking


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, evidence.router, acts.router)) as made:
        yield made


def page(client: WebClient, fitting: str, query: str = "") -> str:
    answer = client.get(f"/fittings/{fitting}/evidence{query}")
    assert answer.status_code == 200
    return answer.text


def parts_of(text: str) -> dict[str, float]:
    """Return the parts of the difference as the table shows them."""
    table = text[text.index("The parts as a table") :].split("</table>", maxsplit=1)[0]
    rows = re.findall(r'<th scope="row">(.*?)</th><td class="n">(.*?)</td>', table, re.DOTALL)
    return {
        re.sub(r"<[^>]+>", "", name).strip(): float(
            value.split(" ")[0].replace("−", "-").replace("+", "")
        )
        for name, value in rows
    }


def test_both_figures_stand_with_their_ranges(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    assert "goes up to 9 yd further than" in text
    assert "As you swing it and From the same swing, against Own, with ranges" in text
    row = re.search(r'<tr class="lead-row">(.*?)</tr>', text, re.DOTALL)
    assert row is not None
    assert row.group(1).count('class="r"') == 2


def test_the_parts_add_up_as_shown_for_every_pair(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    pairs = re.findall(r'evidence\?a=(\w+)&amp;b=(\w+)#why"', text)
    assert len(pairs) == 10
    for a, b in pairs:
        told = parts_of(page(client, demo.finished, f"?a={a}&b={b}"))
        *parts, whole = told.values()
        assert list(told)[-1] == f"{a} less {b}"
        assert round(sum(parts), 1) == whole


def test_two_clubs_that_are_none_fall_back_to_those_that_need_it(
    client: WebClient, demo: DemoStudio
) -> None:
    usual = parts_of(page(client, demo.finished))
    assert parts_of(page(client, demo.finished, "?a=Oak&b=<script>")) == usual


def test_an_odd_ball_is_set_aside_and_counted_again(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    at = f"/fittings/{demo.finished}"
    text = page(client, demo.finished)
    ball = re.search(r'name="ball_of" value="(\d+)"', text)
    assert ball is not None
    assert "Set aside" in text
    client.post(f"{at}/acts/odd", data={"ball_of": ball.group(1), "back": f"{at}/evidence"})
    swing = replay(studio.record(demo.finished)).swing(int(ball.group(1)))
    assert swing is not None
    assert swing.odd
    text = page(client, demo.finished)
    assert "set aside by the fitter" in text
    undo = re.search(r'name="act" value="(\d+)"', text)
    assert undo is not None
    assert "Count it again" in text
    answer = client.post(f"{at}/acts/undo", data={"act": undo.group(1), "back": f"{at}/evidence"})
    assert answer.headers["location"] == f"{at}/evidence"
    assert "set aside by the fitter" not in page(client, demo.finished)


def test_a_ball_that_was_set_aside_keeps_its_place_and_reason(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    ball = replay(studio.record(demo.in_progress)).balls[3]
    act(studio, demo.in_progress, [OddBall(ball=ball.sequence)])
    text = page(client, demo.in_progress)
    assert re.search(rf'<th scope="row">{ball.number}</th><td class="n">0 %</td>', text)


def test_strikes_are_drawn_for_every_club_with_one_outline(
    client: WebClient, demo: DemoStudio
) -> None:
    text = page(client, demo.finished)
    assert "Strikes of 5 clubs on the face, seen from the front" in text
    assert "the same outline for every club" in text


def test_a_vetoed_club_is_said_to_be_out(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    act(studio, demo.in_progress, [Vetoed(club="Cedar")])
    text = page(client, demo.in_progress)
    assert "out of the comparison, its balls stay" in text
    assert "Cedar is out" in text


def test_what_may_and_may_not_be_said_stands_with_why(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    may, may_not = text.split("May not be said")
    assert "which club goes further as you swing it" in may
    assert "which club is straighter" in may_not
    assert "more balls with" in may


def test_the_page_follows_the_balls(client: WebClient, studio: Studio, demo: DemoStudio) -> None:
    before = page(client, demo.in_progress)
    virtual_ball(studio, demo.in_progress)
    after = page(client, demo.in_progress)
    assert before != after
    assert "23 of" not in after


def test_nothing_yet_says_what_is_enough(client: WebClient, studio: Studio) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"))
    text = page(client, open_for_new(studio, visitor, bay="Bay 1").id)
    assert "Nothing to compare yet: two clubs with two balls each are enough" in text


def test_no_page_of_it_holds_inline_style_or_script(client: WebClient, demo: DemoStudio) -> None:
    for fitting in (demo.finished, demo.in_progress):
        text = page(client, fitting)
        assert " style=" not in text
        assert not re.search(r"<script(?![^>]* src=)", text)
