"""What is said of the looks, the mends and the rounds of a final check."""

from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.built import Checked
from loftwright.domain.sheet_acts import Deviated
from loftwright.domain.verdict import Reading
from loftwright.report.build_words import CHECKED_WORDS
from loftwright.report.final_words import apart, sentence, with_unit
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import Show
from loftwright.workshop.final import HandCheck
from loftwright.workshop.final_mends import LEAST_MASS, Mend

HAND_WORDS: Final = {
    HandCheck.PARTS: "Parts are those of the sheet",
    HandCheck.SERIALS: "Serial numbers are those of the sheet",
    HandCheck.ORIENTATION: "Shaft and grip are turned as the sheet says",
    HandCheck.INDEX: "Sleeve stands at the index mark of the sheet",
    HandCheck.CURED: "Cure time has passed",
    HandCheck.TURNS: "Head does not turn under a hand twist",
    HandCheck.CREAK: "No creak when it is bent and twisted by hand",
    HandCheck.SCREW: "Screw was checked with the torque tool",
    HandCheck.RATTLE: "Nothing rattles",
    HandCheck.FERRULE: "Ferrule sits without a gap",
    HandCheck.SURFACE: "No cracks, burrs or sharp ends",
    HandCheck.STRAIGHT: "Shaft is straight when it is rolled",
}
_ASKED: Final = {
    Checked.LOFT: "look at the sleeve's mark first; bend or change the head only if that is right",
    Checked.LIE: "look at the sleeve's mark first; bend or change the head only if that is right",
    Checked.FACE: "look at the sleeve's mark first; change the head only if that is right",
    Checked.FREQUENCY: "read it again in the set-up of the sheet; a cut is not taken back",
}

_ENDINGS: Final = {
    "_kgcm2": ("kg cm²", 1),
    "_inch": ("in", 3),
    "_cpm": ("cpm", 1),
    "_deg": ("\N{DEGREE SIGN}", 2),
    "_mm": ("mm", 1),
    "_g": ("g", 1),
}
"""Endings of a build file's keys, their units, and the decimals that a bench has."""

_MADE: Final = {
    "made.cut_length": "Shaft, cut",
    "made.head_added": "Put into the head",
    "made.butt_added": "Put into the butt",
}
"""What a sheet solves to and a workshop may do otherwise; no part has it."""


def mend_line(mend: Mend, show: Show) -> str:
    """Return what one reading that is out asks for."""
    name = CHECKED_WORDS[mend.checked]
    off = apart(mend.checked, mend.off, show)
    return sentence(f"{name} {off}: {_mend(mend, show)}.")


def _mend(mend: Mend, show: Show) -> str:
    if mend.head is not None:
        return _masses(mend, show)
    if mend.checked is Checked.LENGTH:
        size = with_unit(mend.checked, abs(mend.off), show)
        if mend.off > 0.0:
            return f"take the grip off, cut {size} at the butt, grip it anew and measure all again"
        return f"nothing puts {size} back: another shaft, or the golfer agrees to it"
    if mend.checked is Checked.GRIP:
        return _tape(mend, show)
    if mend.asked:
        return _ASKED.get(
            mend.checked, "the sheet cannot be solved for these parts: mend it first"
        )
    return "it is off what the parts come to: measure both again"


def _tape(mend: Mend, show: Show) -> str:
    way = "more" if mend.off < 0.0 else "less"
    if mend.turns is None:
        return f"{way} tape under it, or another core"
    few, many = (show.number(abs(one), 1) for one in mend.turns)
    return f"{few} to {many} turns of tape {way}, or another core"


def _masses(mend: Mend, show: Show) -> str:
    said, barred = [], []
    places = (("head", mend.head or 0.0), ("butt", mend.butt or 0.0))
    for (place, mass), there in zip(places, mend.there, strict=True):
        if abs(mass) < LEAST_MASS:
            continue
        grams = f"{show.number(abs(mass) / GRAM, 1)} g"
        if mass > 0.0:
            said.append(f"put {grams} into the {place}")
        elif -mass <= there + LEAST_MASS:
            said.append(f"take {grams} out of the {place}")
        else:
            held = show.number(there / GRAM, 1)
            barred.append(f"the {place} would have to lose {grams} and only {held} g are in it")
    if barred:
        return f"{listed(barred)}: another part, or the golfer agrees to it"
    return listed(said) or "weigh and measure it again"


def changed_line(
    checked: Checked, before: Reading | None, after: Reading | None, show: Show
) -> str:
    """Return how a reading changed from one round to the next."""
    name = sentence(CHECKED_WORDS[checked])
    if after is None:
        return f"{name} was not read again."
    now = with_unit(checked, after.value, show)
    if before is None:
        return f"{name} was read for the first time: {now}."
    return f"{name} {with_unit(checked, before.value, show)} before, {now} now."


def departure_line(one: Deviated, show: Show) -> str:
    """Return what was built otherwise than the sheet says."""
    ending = next((end for end in _ENDINGS if one.key.endswith(end)), "")
    bare = one.key.removesuffix(ending)
    name = _MADE.get(bare, sentence(bare.replace("_", " ").replace(".", ", ")))
    built, sheet = (_built(text, ending, show) for text in (one.built, one.sheet))
    why = f" ({one.why})" if one.why else ""
    return f"{name}: {built} instead of {sheet}{why}."


def _built(text: str, ending: str, show: Show) -> str:
    """Return a value of a build file as the shop writes it."""
    try:
        value = float(text)
    except ValueError:
        return show.words(text)
    unit, digits = _ENDINGS.get(ending, ("", 4))
    if unit == "in" and show.units == "metric":
        return f"{show.number(value * INCH / MILLIMETRE, 1)} mm"
    figure = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    return f"{show.words(figure)} {unit}".strip()
