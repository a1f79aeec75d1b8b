"""Which one: groups, ties, the cheap ways, what was not hit, vetoes and the reveal."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from loftwright.bay.replay import replay
from loftwright.domain.acts import Felt, NotOurs, Vetoed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.web.pages import acts, choice
from studios import app_of
from web_client import WebClient, asking


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, choice.router, acts.router)) as made:
        yield made


def page(client: WebClient, fitting: str) -> str:
    answer = client.get(f"/fittings/{fitting}/choice")
    assert answer.status_code == 200
    return answer.text


def groups(text: str) -> list[tuple[str, list[str]]]:
    """Return each group's heading with the first cells of its rows."""
    found = []
    for body in re.findall(r'<tbody class="group[^"]*">(.*?)</tbody>', text, re.DOTALL):
        heads = re.findall(r'<th scope="row(?:group)?"[^>]*>(.*?)</th>', body, re.DOTALL)
        plain = [re.sub(r"<[^>]+>", "", one).strip() for one in heads]
        found.append((plain[0], plain[1:]))
    return found


def test_the_leader_comes_first_and_own_ends_its_group(
    client: WebClient, demo: DemoStudio
) -> None:
    told = groups(page(client, demo.finished))
    assert told[0] == ("The best by score", ["Ash"])
    heading, rows = told[1]
    assert heading == "Too close to call with Own, which ends its group: feel first, then price"
    assert rows[-1] == "Own"


def test_the_columns_follow_the_question(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    heads = re.findall(r"<th[^>]*>([^<]+)</th>", text[text.index("<thead>") :])[:11]
    assert [one.split(",")[0] for one in heads] == [
        "Club",
        "Built as",
        "Fairways in 14",
        "Strokes a round",
        "Start line",
        "Curve",
        "Height",
        "Lands",
        "Carry + run",
        "Feel",
        "Price",
    ]


def test_the_cheap_ways_are_always_rows(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    heading, rows = groups(text)[-1]
    assert heading == "Not hit, or too few balls: never ranked"
    assert {row.removesuffix(" not hit") for row in rows} == {"Own", "Ash"}
    assert "Only turn the sleeve" in text
    assert "the own head has no sleeve" in text
    assert text.count("shaft in the own head</b>") == 4
    assert text.count(">not hit</span>") == len(rows) - 1


def test_neighbours_are_told_with_their_range_and_never_ranked(
    client: WebClient, demo: DemoStudio
) -> None:
    text = page(client, demo.finished)
    unhit = text[text.index("Not hit, or too few balls") :]
    for made in ("half an inch longer", "shaft 4 g lighter", "one down"):
        row = next(part for part in unhit.split("<tr") if made in part)
        assert "not hit" in row
        assert re.search(r"[−+]?0\.\d\d<span", row)
        assert re.search(r"\d to [−+]", row)
    assert "yours" not in next(part for part in unhit.split("<tr") if "half an inch" in part)


def test_what_would_change_the_answer_is_said(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    block = text[text.index('id="changes"') : text.index('id="before"')]
    assert "Keeping your own is right with" in block
    assert "No other leader" in block or "Nothing that was looked at changes" in block


def test_a_club_that_is_put_forward_waits_for_its_balls(
    client: WebClient, demo: DemoStudio
) -> None:
    text = re.sub(r"<svg.*?</svg>|<[^>]+>", "", page(client, demo.finished), flags=re.DOTALL)
    asked = re.search(r"Hit it first\?\s+(.*?) before an order", text, re.DOTALL)
    assert asked is not None
    assert "was not hit" in asked[1]
    assert "five balls with it" in asked[1]


def test_the_dearer_one_margin_and_straightness_are_spoken_of(
    client: WebClient, demo: DemoStudio
) -> None:
    text = re.sub(r"<svg.*?</svg>|<[^>]+>", "", page(client, demo.finished), flags=re.DOTALL)
    assert "Why not the dearer one? Cedar costs 90 crowns more, and Ash" in text
    assert "What the shop earns on a club is in no order on this page." in text
    assert "40 balls cannot show which is straighter" in text
    assert "five confirming balls before an order" in text


def test_a_tie_with_own_is_held_against_the_dearer_ones(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    # Without one good ball of Own another club leads by a hair.
    own = [one for one in studio.standing(demo.in_progress).balls if one.club == "Own"]
    longest = max(own, key=lambda one: (one.numbers and one.numbers.ball_speed) or 0.0)
    act(studio, demo.in_progress, [NotOurs(ball=longest.sequence)])
    text = page(client, demo.in_progress)
    assert "are too close to call today" in text
    lead = re.search(r'<tr class="lead-row">(.*?)</tr>', text, re.DOTALL)
    assert lead is not None
    assert "Own</span>" in lead.group(1)


def test_feel_comes_before_price_in_a_tie(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    before = next(rows for head, rows in groups(page(client, demo.in_progress)) if "Elm" in rows)
    assert {"Elm", "Cedar"} <= set(before)
    for first, second in (("Elm", "Cedar"), ("Cedar", "Elm")):
        liked = [Felt(club=first, place=0.9, word="crisp"), Felt(club=second, place=0.2)]
        act(studio, demo.in_progress, liked)
        text = page(client, demo.in_progress)
        rows = next(rows for _, rows in groups(text) if first in rows)
        assert rows.index(first) < rows.index(second)
        assert "near want it: “crisp”" in text


def test_a_vetoed_club_stands_last_with_its_reason(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    act(studio, demo.in_progress, [Vetoed(club="Cedar")])
    text = page(client, demo.in_progress)
    assert groups(text)[-1] == ("Not in the running", ["Cedar"])
    assert "would not play it" in text[text.index("Not in the running") :]


def test_the_reveal_is_one_tap_and_can_be_taken_back(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    at = f"/fittings/{demo.finished}"
    assert "Reveal on the golfer’s screen" in page(client, demo.finished)
    answer = client.post(f"{at}/acts/reveal", data={"back": f"{at}/choice"})
    assert answer.status_code == 303
    assert answer.headers["location"] == f"{at}/choice"
    assert replay(studio.record(demo.finished)).revealed
    text = page(client, demo.finished)
    undo = re.search(r'name="act" value="(\d+)"', text)
    assert undo is not None
    client.post(f"{at}/acts/undo", data={"act": undo.group(1), "back": f"{at}/choice"})
    assert not replay(studio.record(demo.finished)).revealed


def test_nothing_to_choose_says_what_is_enough(client: WebClient, studio: Studio) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"))
    text = page(client, open_for_new(studio, visitor, bay="Bay 1").id)
    assert "Nothing to choose from yet: two clubs with two balls each are enough." in text
    assert "Go to the plan" in text


def test_figures_stand_in_the_shops_units(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    kept = read_settings(studio)
    metric = replace(kept.settings, units="metric", decimal="comma")
    change_settings(studio, metric, version=kept.version)
    text = page(client, demo.finished)
    assert "Start line, m" in text
    assert "Height, m" in text
    assert re.search(r"−0,\d\d", text)
    bare = re.sub(r"<(script|style)\b.*?</\1>|<[^>]+>", " ", text, flags=re.DOTALL)
    assert "m further than" in bare
    assert "Where it finishes, m" in bare
    assert re.findall(r"\byd\b|\bft\b|\bmph\b|°F|\byards?\b|\d\.\d", bare) == []
