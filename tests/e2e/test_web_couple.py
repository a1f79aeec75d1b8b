"""Two golfers hit by turns with the same clubs: one tap a turn, and a report for each."""

from typing import Final

import httpx
import pypdfium2
from playwright.sync_api import Page

from bays import Bay, a_bay
from browser import UPRIGHT, Browse
from fingers import Fingers
from loftwright.constants import MILE_PER_HOUR
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.web.app import create_app
from serving import served
from web_client import asking

BLOCKS: Final = ("Own", "Ash", "Own", "Ash")
BALLS: Final = 3
SPEEDS: Final = (148.0, 96.0)
"""So far apart that no ball of one passes for one of the other."""
NAMES: Final = ("Wilbert Ames", "Ottilie Ames")
Record = dict[str, object]


def came_out(bay: Bay) -> object:
    """Return the comparison with every digit."""
    evidence = bay_now(bay.studio, Desk(), bay.fitting).evidence
    assert evidence.decision is not None
    return decision_record(evidence.decision, evidence.table.table)


def as_posted(bay: Bay, golfer: int, club: str, key: str) -> Record:
    gain = 2.0 if club == "Ash" else 0.0
    return {
        "key": key,
        "ball_speed_mph": round(SPEEDS[golfer] + gain + bay.rng.normal(0.0, 1.5), 1),
        "launch_deg": round(12.0 + bay.rng.normal(0.0, 1.2), 1),
        "direction_deg": round(bay.rng.normal(0.0, 2.0), 1),
        "spin_rpm": round(2600.0 + bay.rng.normal(0.0, 250.0)),
        "axis_deg": round(bay.rng.normal(2.0, 6.0), 1),
    }


def a_couple() -> tuple[Bay, Bay]:
    first = a_bay(name=NAMES[0])
    return first, a_bay(
        name=NAMES[1], partner=first.fitting, studio=first.studio, clock=first.clock
    )


def switch(fitter: Fingers, name: str, bay: Bay) -> None:
    """Let the other golfer hit: one tap."""
    button = fitter.page.get_by_role("button", name=f"{name.split(maxsplit=1)[0]} hits")
    button.first.click()
    fitter.taps += 1
    fitter.page.wait_for_url(f"**{bay.path}")
    fitter.page.wait_for_selector("body[data-painted-revision]")


def test_a_couple_by_turns_with_one_tap_each_comes_out_as_two_who_came_alone(
    browse: Browse,
) -> None:
    couple = a_couple()
    posted: tuple[list[tuple[str, Record]], ...] = ([], [])
    with served(create_app(couple[0].studio)) as address, httpx.Client(timeout=30.0) as device:
        fitter = Fingers(browse(size=UPRIGHT), couple[0]).open(address)
        at = f"{address}/api/fittings/{couple[0].fitting}/shots"
        turn = 0
        for block, club in enumerate(BLOCKS):
            for bay in couple:
                bay.hand(club)
            for golfer in (0, 1) * BALLS:
                if (block, turn) != (0, 0) or golfer:
                    switch(fitter, NAMES[golfer], couple[golfer])
                record = as_posted(couple[0], golfer, club, f"k{turn}")
                told = device.post(at, json=record).raise_for_status().json()
                assert told["fitting"] == couple[golfer].fitting
                posted[golfer].append((club, record))
                turn += 1
        assert fitter.taps == turn - 1 == 23
        each_has_its_own_report(device, address, couple)
        each_page_is_its_golfers(fitter.page, address, couple)

    for golfer, bay in enumerate(couple):
        speeds = [one.numbers.ball_speed for one in bay.now.swings if one.numbers]
        told_speeds = [record["ball_speed_mph"] for _, record in posted[golfer]]
        assert [round((one or 0.0) / MILE_PER_HOUR, 1) for one in speeds] == told_speeds
        assert came_out(bay) == came_out(alone(golfer, posted[golfer]))


def alone(golfer: int, posted: list[tuple[str, Record]]) -> Bay:
    """Return the fitting of a golfer who came without the other."""
    bay = a_bay(name=NAMES[golfer])
    with asking(bay.app()) as client:
        for club, record in posted:
            if club != bay.now.in_hand or not bay.now.swings:
                bay.hand(club)
            answer = client.post(f"/api/fittings/{bay.fitting}/shots", json=record)
            assert answer.status_code == 200
    return bay


def each_has_its_own_report(device: httpx.Client, address: str, couple: tuple[Bay, Bay]) -> None:
    for golfer, bay in enumerate(couple):
        answer = device.get(f"{address}/fittings/{bay.fitting}/report.pdf").raise_for_status()
        with pypdfium2.PdfDocument(answer.content) as document:
            pages = [page.get_textpage().get_text_range() for page in document]
        words = " ".join(" ".join(pages).split())
        assert NAMES[golfer] in words
        assert NAMES[1 - golfer] not in words
        assert "12 balls" in words


def each_page_is_its_golfers(page: Page, address: str, couple: tuple[Bay, Bay]) -> None:
    for golfer, bay in enumerate(couple):
        page.goto(f"{address}/fittings/{bay.fitting}/report")
        text = page.inner_text("body")
        assert NAMES[golfer] in text
        assert NAMES[1 - golfer] not in text
