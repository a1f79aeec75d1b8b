"""The plan's forms: what is wished, and what is settled before the first swing."""

from typing import Final

from loftwright.domain.fitting import DeviceCard, Strip
from loftwright.domain.golfer import Golfer, Hand
from loftwright.evidence.plan import MINUTE, MOST_BALLS
from loftwright.services.fittings import USUAL_BALLS, Wish
from loftwright.services.settings import Settings
from loftwright.services.visit_start import Start
from loftwright.web.forms import Typed

BY_HAND: Final = "Typed by hand"
USUAL_MINUTES: Final = 60
MOST_MINUTES: Final = 600
TREATMENTS: Final = ("nothing", "spray", "tape", "label")
SURFACES: Final = ("mat", "turf")
PLACES: Final = ("indoors", "outdoors")
LEFT_CHECKS: Final = (
    ("stand", "Fitter and bags stand clear of a left-handed swing"),
    ("screen", "Screen and net cover the left-hander’s start line"),
    ("rebound", "Nothing behind or beside can throw a ball back"),
    ("device_side", "The device is moved or set for the left hand"),
)


def read_wish(typed: Typed) -> Wish | None:
    """Return what is wished of a plan; None if a field cannot be."""
    typed.fields.setdefault("clubs", "")
    clubs = tuple(one for one in typed.fields.get("club", "").split(",") if one)
    balls = typed.whole("balls", least=1, most=MOST_BALLS, need=f"{USUAL_BALLS} are usual.")
    minutes = typed.whole("minutes", least=1, most=MOST_MINUTES)
    if not typed.good or balls is None:
        return None
    return Wish(
        assemblies=clubs,
        balls=balls,
        seconds=None if minutes is None else minutes * MINUTE,
        blind=typed.ticked("blind"),
    )


def read_start(typed: Typed, golfer: Golfer, settings: Settings) -> Start | None:
    """Return what is settled before the first swing; None while something is open.

    Of a left-hander the bay is looked at again before the first ball.
    """
    typed.fields.setdefault("left", "")
    pain = typed.fields.setdefault("pain", "")
    if pain not in {"yes", "no"}:
        typed.fail("pain", "it was not asked", "Ask before the first swing, then choose.")
    if golfer.hand is Hand.LEFT and pain != "yes":
        for name, words in LEFT_CHECKS:
            if not typed.ticked(name):
                typed.fail("left", f"not looked at yet: {words.lower()}", "Look, then tick it.")
    strip = Strip(
        ball=typed.text("ball"),
        tee=typed.text("tee"),
        surface=typed.one_of("surface", ("", *SURFACES), ""),
        place=typed.one_of("place", ("", *PLACES), ""),
        treatment=typed.one_of("treatment", ("", *TREATMENTS), ""),
    )
    if not typed.good:
        return None
    device = device_of(typed.text("device"), settings)
    return Start(device=device, strip=strip, pain=pain == "yes")


def device_of(name: str, settings: Settings) -> DeviceCard:
    """Return a device by its name; the first of the shop without one, else the keyboard."""
    if name:
        return settings.device(name)
    return settings.devices[0] if settings.devices else DeviceCard(name=BY_HAND)
