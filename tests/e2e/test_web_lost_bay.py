"""Tablet and monitor die at ball 17: paper for six balls, another tablet, nothing lost."""

from collections.abc import Callable
from typing import Final

from fastapi import FastAPI
from playwright.sync_api import Page, expect

from bays import Bay, a_bay, drive
from browser import LYING, UPRIGHT, Browse, Faults
from fingers import Fingers
from keystrokes import Person
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.domain.acts import Marked
from loftwright.domain.numbers import ShotNumbers
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.shots import Incoming, take
from loftwright.web.app import create_app
from loftwright.web.security import Access
from serving import served

SHEET: Final = """after 17
1 ash 147.1 12.4 2480 -1 3 mark 4t 2h
2 147.9 11.9 2555 0 1 mark 3h 6t
3 148.4 12.8 2390 1 -2
after 18
4 unread
5 own 146.2 12.2 2600 -2 4 mark toe-high
6 146.8 12.6 2510 0 0 mark 2t 1h
"""
"""Six balls as they were pencilled; the monitor had woken for one between the third and fourth."""

PENCILLED: Final = (
    ("Ash", (147.1, 12.4, 2480.0, -1.0, 3.0)),
    ("Ash", (147.9, 11.9, 2555.0, 0.0, 1.0)),
    ("Ash", (148.4, 12.8, 2390.0, 1.0, -2.0)),
    ("Ash", None),
    ("Own", (146.2, 12.2, 2600.0, -2.0, 4.0)),
    ("Own", (146.8, 12.6, 2510.0, 0.0, 0.0)),
)
"""The same six, once more by hand: club, and ball speed, launch, spin, direction and axis."""
FEED_PLACE: Final = 3
PAIRED_WITHIN, TYPED_WITHIN = 60.0, 180.0
"""Seconds of a person's time, by the keystroke-level model."""


def came_out(bay: Bay) -> object:
    """Return the comparison with every digit."""
    evidence = bay_now(bay.studio, Desk(), bay.fitting).evidence
    assert evidence.decision is not None
    return decision_record(evidence.decision, evidence.table.table)


def seventeen(bay: Bay) -> None:
    for ball in range(17):
        if ball % 6 == 3:
            bay.hand("Ash" if ball in {3, 15} else "Own")
        bay.ball(drive(bay.rng, bay.now.in_hand or "Own"))


def numbers(told: tuple[float, ...]) -> ShotNumbers:
    speed, launch, spin, direction, axis = told
    return ShotNumbers(
        ball_speed=speed * MILE_PER_HOUR,
        launch=launch * DEGREE,
        spin=spin * REVOLUTION_PER_MINUTE,
        direction=direction * DEGREE,
        axis=axis * DEGREE,
    )


def let_in(browse: Browse, app: FastAPI, bay: Bay, address: str, name: str) -> Person:
    """Let a tablet of the shop's network in by a code, and open its bay page."""
    tablet = Person(page=browse(size=UPRIGHT, extra_http_headers={"X-Forwarded-For": "192.0.2.7"}))
    tablet.page.goto(f"{address}{bay.path}")
    tablet.page.wait_for_url("**/pair")
    tablet.types("code", app.state.pairing.new_code().figures)
    tablet.types("name", name)
    tablet.presses("Let in")
    Fingers(tablet.page, bay).open(address)
    return tablet


def types_the_sheet(laptop: Page) -> Person:
    person = Person(page=laptop)
    person.types("sheet", "B7K2")
    person.types("rows", SHEET)
    person.presses("Take the sheet")
    return person


def test_six_balls_on_paper_and_another_tablet_lose_nothing(
    browse: Browse, faults: Faults, say: Callable[[str], None]
) -> None:
    faults.allow("ERR_INCOMPLETE_CHUNKED")
    bay = a_bay()
    seventeen(bay)
    app = create_app(bay.studio, access=Access(paired=True))
    with served(app) as address:
        first = let_in(browse, app, bay, address, "First tablet")
        in_hand = bay.now.in_hand
        first.page.context.close()
        woken = drive(bay.rng, "Ash")
        bay.ball(woken)

        laptop = browse(size=LYING)
        laptop.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        typist = types_the_sheet(laptop)
        expect(laptop.get_by_text("6 balls of the sheet came in.")).to_be_visible()
        types_the_sheet(laptop)
        expect(laptop.get_by_text("6 were there already")).to_be_visible()

        tablet = let_in(browse, app, bay, address, "Second tablet")
        assert in_hand == "Ash"
        expect(tablet.page.locator("#part-hand .far span").first).to_have_text("Ash")
        words = " ".join(tablet.page.locator("#part-order").inner_text().split())
        assert "Ash 7 (1 not read), Own 2;" in words
        assert words == words_of_the_order(browse, address, bay)
    say(
        f"a lost bay: {tablet.fields} fields, {tablet.clicks} tap and {tablet.seconds:.0f} s let "
        f"the new tablet in; {typist.keys} keys, {typist.clicks} tap and {typist.seconds:.0f} s "
        "type six balls (keystroke-level model, the machine's own time left out)"
    )
    assert (tablet.fields, tablet.clicks, typist.fields, typist.clicks) == (2, 1, 2, 1)
    assert tablet.seconds <= PAIRED_WITHIN
    assert typist.seconds <= TYPED_WITHIN
    nothing_is_lost(bay, woken)


def words_of_the_order(browse: Browse, address: str, bay: Bay) -> str:
    """Return the balls in order as the shop's own machine shows them."""
    here = browse(size=UPRIGHT)
    Fingers(here, bay).open(address)
    return " ".join(here.locator("#part-order").inner_text().split())


def nothing_is_lost(bay: Bay, woken: ShotNumbers) -> None:
    hit = [(club, None if told is None else numbers(told)) for club, told in PENCILLED]
    hit.insert(FEED_PLACE, ("Ash", woken))
    balls = bay.now.balls
    assert len(balls) == 24
    assert [(one.club, one.numbers) for one in balls[17:]] == hit
    marks = [
        (round(one.mark.toe / MILLIMETRE), round(one.mark.high / MILLIMETRE))
        for one in balls[17:19] + balls[23:]
        if one.mark is not None
    ]
    assert marks == [(4, 2), (6, 3), (2, 1)]
    coarse = balls[22].mark
    assert coarse is not None
    assert coarse.toe > 0.0
    assert coarse.high > 0.0
    assert bay.now.in_hand == "Ash"
    assert came_out(bay) == came_out(as_it_was_hit(bay, hit))


def as_it_was_hit(mended: Bay, hit: list[tuple[str, ShotNumbers | None]]) -> Bay:
    """Return a fitting in which the same balls came by the feed, one after the other."""
    clean = a_bay()
    seventeen(clean)
    for place, (club, told) in enumerate(hit):
        if club != clean.now.in_hand:
            clean.hand(club)
        if told is None:
            unread = Incoming(numbers=ShotNumbers(), key=f"unread {place}", read=False)
            take(clean.studio, clean.fitting, unread, source="feed")
        else:
            clean.ball(told)
        mark = mended.now.balls[17 + place].mark
        if mark is not None:
            clean.do(Marked(mark=mark))
    return clean
