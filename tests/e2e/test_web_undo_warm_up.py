"""Warm-up that was ended too soon, in Chromium: one tap takes it back, balls and all."""

from bays import a_bay
from browser import Browse
from fingers import Fingers
from loftwright.domain.acts import HandedOver
from loftwright.web.app import create_app
from serving import served

SHOWN = ("say", "hand", "face", "feel", "wait", "fly", "order", "strip")
"""All that does not tell what can be undone."""


def shown(fitter: Fingers) -> dict[str, str]:
    return {part: fitter.page.locator(f"#part-{part}").inner_text() for part in SHOWN}


def test_warm_up_done_too_soon_is_taken_back_by_one_tap(browse: Browse) -> None:
    bay = a_bay(warm=False)
    bay.do(HandedOver(club="Own"))
    bay.balls(3)
    with served(create_app(bay.studio)) as address:
        fitter = Fingers(browse(), bay).open(address)
        before = shown(fitter)
        fitter.tap("Warm-up done")
        bay.ball()
        fitter.painted()
        assert [one.warm_up for one in bay.now.swings] == [True, True, True, False]
        assert shown(fitter) != before
        fitter.tap("Undo warm-up done")
        assert fitter.taps == 2
        assert [one.warm_up for one in bay.now.swings] == [True] * 4
        assert not bay.now.balls
        fitter.tap("Do warm-up done again")
        assert len(bay.now.balls) == 1

        fitter.tap("Undo warm-up done")
        never = a_bay(warm=False)
        never.do(HandedOver(club="Own"))
        never.balls(4)
        with served(create_app(never.studio)) as elsewhere:
            assert shown(fitter) == shown(Fingers(browse(), never).open(elsewhere))
