"""A job whose club is built and waits for its final check: invented, of the driver's parts."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Any, Final

from builds import BUILD_TOML
from loftwright.constants import DEGREE, INCH
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.job_acts import JobAct
from loftwright.domain.order import ClubSpec, Kept, Quote
from loftwright.domain.sheet_acts import Bonded, SheetIssued, Step, StepDone
from loftwright.intake.build_text import Value, toml_text
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.job import job_act
from loftwright.services.studio import Studio
from loftwright.workshop.final import HandCheck

BUILD: Final = BUILD_TOML.replace(
    "mass_g = 325\n",
    "mass_g = 325\nloft_deg = 10.5\nfrequency_cpm = 252\nclamp_mm = 127\ntip_mass_g = 205\n"
    "grip_inch = 0.92\n",
    1,
)
"""Solved it takes 6.87 g in the head and 3.25 g in the butt."""

LOOKED: Final = dict.fromkeys((one.value for one in HandCheck), True)
GOOD: Final[Mapping[str, Value]] = {
    "length_inch.value": 45.02,
    "length_inch.u95": 0.03,
    "length_inch.method": "60 degrees",
    "mass_g.value": 325.2,
    "mass_g.u95": 0.5,
    "balance_inch.value": 33.08,
    "balance_inch.u95": 0.06,
    "swingweight.value": "D3.0",
    "swingweight.u95": 0.3,
    "loft_deg.value": 10.6,
    "loft_deg.u95": 0.25,
    "frequency_cpm.value": 251.6,
    "frequency_cpm.u95": 1.0,
    "frequency_cpm.clamp_mm": 127.0,
    "frequency_cpm.tip_mass_g": 205.0,
    "grip_inch.value": 0.921,
    "grip_inch.u95": 0.003,
    "built.head_added_g": 6.9,
    "built.butt_added_g": 3.2,
}
"""Every target read and in."""

TYPED: Final = {
    "method": "60 degrees",
    "length": "45.02",
    "length_u95": "0.03",
    "mass": "325.2",
    "mass_u95": "0.5",
    "balance": "33.08",
    "balance_u95": "0.06",
    "swingweight": "D3",
    "swingweight_u95": "0.3",
    "loft": "10.6",
    "loft_u95": "0.25",
    "frequency": "251.6",
    "frequency_u95": "1",
    "clamp": "127",
    "tip_mass": "205",
    "grip": "0.921",
    "grip_u95": "0.003",
    "head_added": "6.9",
    "butt_added": "3.2",
    "edition": "Equipment Rules of the year",
    "second": "Petronella Vane",
    "day": "2026-11-25",
    "outcome": "accept",
} | {f"look_{one.value}": "yes" for one in HandCheck}
"""The same on the form."""


def readings(**changed: Value | None) -> str:
    """Return good readings as text, some changed; keys with two underscores for the dot."""
    values = dict(GOOD)
    for name, value in changed.items():
        key = name.replace("__", ".")
        values.pop(key, None)
        if value is not None:
            values[key] = value
    return toml_text(values)


def without(*keys: str) -> str:
    """Return good readings as text without some quantities."""
    return toml_text({name: one for name, one in GOOD.items() if name.split(".")[0] not in keys})


def a_receipt(studio: Studio, measured: str | None = None, **changed: Any) -> Received:  # noqa: ANN401
    """Return a receipt that accepts a club."""
    told: dict[str, Any] = {
        "measured": readings() if measured is None else measured,
        "looked": dict(LOOKED),
        "outcome": Outcome.ACCEPT,
        "second": "Petronella Vane",
        "day": studio.today(),
    }
    return Received(**(told | changed))


def a_golfers_fitting(studio: Studio) -> str:
    """Open a fitting for an invented golfer."""
    visitor = Visitor(
        golfer=Golfer(id="", hand=Hand.RIGHT), identity=Identity(name="Ottoline Brambleby")
    )
    return open_for_new(studio, visitor, bay="Bay 1").id


def a_bond(studio: Studio, hours: float = -1.0) -> Bonded:
    """Return a bond that is cured in so many hours."""
    return Bonded(
        adhesive="Slow epoxy",
        batch="7",
        mixed=studio.now() - timedelta(days=2),
        not_before=studio.now() + timedelta(hours=hours),
        assembly="",
        head_piece="",
        shaft_piece="",
    )


def a_built_job(studio: Studio, *more: JobAct, build: str = BUILD, hours: float = -1.0) -> str:
    """Open a fitting whose club is built, and return its id."""
    fitting = a_golfers_fitting(studio)
    acts: list[JobAct] = [
        SheetIssued(build=build, fields={}),
        StepDone(step=Step.WEIGHED, initials="Q.R."),
        a_bond(studio, hours),
        *more,
    ]
    job_act(studio, fitting, acts)
    return fitting


def a_quote(studio: Studio) -> Quote:
    """Return a quote for the club that is built."""
    spec = ClubSpec(
        label="Ash",
        club="Ash",
        assembly="",
        hand=Hand.RIGHT,
        kept=Kept.NOTHING,
        head="Harrow 460",
        shaft="Reedmace firm",
        grip="Round (invented)",
        head_piece="",
        shaft_piece="",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        setting="one up",
        settings=(),
        length=45.0 * INCH,
        hit=True,
        promise=None,
    )
    return Quote(
        spec=spec,
        lines=(),
        tax=0.2,
        deposit=0.0,
        currency="EUR",
        lead_days=14,
        valid_until=studio.today() + timedelta(days=30),
    )
