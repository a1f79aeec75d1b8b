"""Tablet and monitor die at ball 17: paper for six balls, another tablet, nothing lost."""

from playwright.sync_api import expect

from bays import Bay, a_bay, drive
from browser import LYING, UPRIGHT, Browse
from fingers import Fingers
from loftwright.domain.acts import Marked
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.shots import Incoming, take
from loftwright.web.app import create_app
from loftwright.web.security import Access
from serving import served

SHEET = """after 17
1 ash 147.1 12.4 2480 -1 3 mark 4t 2h
2 147.9 11.9 2555 0 1 mark 3h 6t
3 148.4 12.8 2390 1 -2
after 18
4 unread
5 own 146.2 12.2 2600 -2 4 mark toe-high
6 146.8 12.6 2510 0 0 mark 2t 1h
"""
"""Six balls as they were pencilled; the monitor had woken for one between the third and fourth."""


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


def test_six_balls_on_paper_and_another_tablet_lose_nothing(browse: Browse) -> None:
    """The machine's share: one code of six figures, one form; 254 keys are the six balls'."""
    bay = a_bay()
    seventeen(bay)
    app = create_app(bay.studio, access=Access(paired=True))
    with served(app) as address:
        first = Fingers(browse(size=UPRIGHT), bay).open(address)
        in_hand = bay.now.in_hand
        first.page.close()
        bay.ball(drive(bay.rng, "Ash"))
        assert len(bay.now.balls) == 18

        laptop = browse(size=LYING)
        laptop.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        taps = 0
        for label, text in (
            ("Name at the foot of the sheet", "B7K2"),
            ("One line a ball", SHEET),
        ):
            laptop.get_by_label(label).fill(text)
            taps += 1
        laptop.get_by_role("button", name="Take the sheet").click()
        taps += 1
        expect(laptop.get_by_text("6 balls of the sheet came in.")).to_be_visible()
        assert taps == 3
        laptop.get_by_role("button", name="Take the sheet").click()
        laptop.wait_for_load_state()

        # The new tablet comes by a code, like any device that is not this machine.
        tablet = browse(size=UPRIGHT, extra_http_headers={"X-Forwarded-For": "192.0.2.7"})
        tablet.goto(f"{address}{bay.path}")
        tablet.wait_for_url("**/pair")
        tablet.get_by_label("Code").fill(app.state.pairing.new_code().figures)
        tablet.get_by_label("Name of this device").fill("Second tablet")
        tablet.get_by_role("button", name="Let in").click()
        tablet.goto(f"{address}{bay.path}")
        tablet.wait_for_selector("body[data-painted-revision]")
        expect(tablet.locator("#part-hand")).to_contain_text(in_hand or "")

    balls = bay.now.balls
    assert len(balls) == 24
    assert [one.club for one in balls[17:]] == ["Ash", "Ash", "Ash", "Ash", "Ash", "Own", "Own"]
    assert [one.numbers is None for one in balls[17:]] == [False] * 4 + [True] + [False] * 2
    speeds = [None if one.numbers is None else one.numbers.ball_speed for one in balls[17:21]]
    assert all(speed is not None for speed in speeds)
    assert bay.now.in_hand == in_hand
    assert came_out(bay) == came_out(as_it_was_hit(bay))


def as_it_was_hit(mended: Bay) -> Bay:
    """Return a fitting in which the same balls came by the feed, one after the other."""
    clean = a_bay()
    for place, one in enumerate(mended.now.balls):
        if one.club and one.club != clean.now.in_hand:
            clean.hand(one.club)
        if one.numbers is None:
            take(
                clean.studio,
                clean.fitting,
                Incoming(numbers=drive(clean.rng, "Own"), key=f"unread {place}", read=False),
                source="feed",
            )
        else:
            clean.ball(one.numbers)
        if one.mark is not None:
            clean.do(Marked(mark=one.mark))
    return clean
