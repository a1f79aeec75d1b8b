"""What a build sheet holds before anybody typed: from order, cards, parts, rack and terms."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    MILLIMETRE,
)
from loftwright.constants import KILOGRAM_SQUARE_CENTIMETRE as INERTIA
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order import ClubSpec, Kept
from loftwright.domain.parts_acts import Part, PartCame, PartSettled, Settled
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack
from loftwright.domain.terms import Terms
from loftwright.domain.tolerances import Tolerances
from loftwright.intake.build_keys import ERROR_KEYS, TOLERANCE_KEYS
from loftwright.physics.build.swingweight import (
    FULCRUM,
    letters,
)
from loftwright.physics.build.uncertainty import NINETY_FIVE, PartErrors
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.services.settings import read_settings
from loftwright.services.sheet_text import Draft, figure_text
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.workshop.mends import as_set
from loftwright.workshop.parts import arrived

TESTED: Final = "Of the tested club."
OTHER_SAMPLE: Final = "Of the tested sample, not of the one that is built: weigh that."
CAME: Final = "Measured when it came."
PRACTICE: Final = "Common practice, no source; measure it."
_PLACES: Final = {"sleeve": -0.6, "screw": 0.6, "ferrule": -1.6, "glue": -0.6}
"""Where small parts usually sit beyond the tip [in] (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """What a sheet's form shows before anybody typed.

    Attributes
    ----------
    draft : dict of str to str
        By field.
    sources : dict of str to str
        Where a figure comes from, by field.
    """

    draft: Draft
    sources: dict[str, str]


class _Filling:
    """Fills a draft field by field; what is not known stays away."""

    def __init__(self) -> None:
        self.draft: Draft = {}
        self.sources: dict[str, str] = {}

    def figure(self, name: str, value: float | None, unit: float, source: str = "") -> None:
        if value is not None:
            self.text(name, figure_text(value / unit), source)

    def text(self, name: str, text: str, source: str = "") -> None:
        if text:
            self.draft[name] = text
            if source:
                self.sources[name] = source


def usual_sheet(studio: Studio, spec: ClubSpec, record: Sequence[JobEntry]) -> Usual:
    """Return what a first sheet holds of the club that was ordered.

    Parameters
    ----------
    studio : Studio
    spec : ClubSpec
        As the golfer agreed to it.
    record : sequence of JobEntry
        The job's whole record.

    Notes
    -----
    Masses of parts that did not come yet are those of the tested samples, and say so: the sheet's
    second hold point compares every part with them.
    """
    filling = _Filling()
    terms, rack = read_terms(studio).terms, studio.store.rack()
    cards = studio.store.cards()
    there = {part: one for part, one in arrived(record).items() if not (one.back or one.wrong)}
    came = {part: one.came for part, one in there.items()}
    _shop(filling, terms)
    _club(filling, spec, rack)
    _targets(filling, spec, _newest(cards, spec.assembly), terms)
    convention = read_settings(studio).settings.convention
    _angles(filling, spec, _newest(cards, spec.head_piece), convention)
    _head(filling, spec, rack, cards, came.get(Part.HEAD))
    _shaft(filling, spec, rack, cards, came.get(Part.SHAFT), _profile(studio, spec.shaft_piece))
    _small(filling, spec, came)
    for one in there.values():
        for done in one.settled.values():
            _settled(filling, spec, done)
    return Usual(draft=filling.draft, sources=filling.sources)


def usual_room() -> Draft:
    """Return the tolerances and doubts that stand where a sheet's field was emptied."""
    filling = _Filling()
    _room(filling, Tolerances())
    return filling.draft


def _settled(filling: _Filling, spec: ClubSpec, done: PartSettled) -> None:
    """Take over what was settled when a part came: a turn of the sleeve, weight in the head."""
    if done.settled is Settled.TURN_SLEEVE and done.setting:
        filling.text("setting", done.setting, "Settled when the parts came.")
        bore = next((one.bore for one in spec.settings if one.name == done.setting), None)
        filling.figure("sleeve_bore_deg", bore, DEGREE, "Of that setting.")
    if done.settled is Settled.HEAD_WEIGHT and done.part is Part.HEAD:
        words = f"{figure_text(done.mass / GRAM)} g settled when the head came"
        filling.text("ports", words, "The sheet solves for all that is added to the head.")


def _shop(filling: _Filling, terms: Terms) -> None:
    _room(filling, terms.tolerances)
    if terms.calibration is not None:
        filling.figure("calibration.mass_g", terms.calibration.mass, GRAM)
        filling.figure("calibration.balance_inch", terms.calibration.balance, INCH)
        filling.text("calibration.reads", letters(terms.calibration.reads))
    filling.text("rules.edition", terms.edition)
    filling.text("builder", terms.builder)
    if terms.adhesives:
        filling.text("adhesive", terms.adhesives[0].name)
    filling.text("length_method", "60-degree plane")


def _room(filling: _Filling, tolerances: Tolerances) -> None:
    for key, (name, unit) in TOLERANCE_KEYS.items():
        filling.figure(f"tolerance.{key}", getattr(tolerances, name), unit)
    errors = PartErrors()
    for key, (name, unit) in ERROR_KEYS.items():
        filling.figure(f"u95.{key}", NINETY_FIVE * getattr(errors, name), unit)


def _club(filling: _Filling, spec: ClubSpec, rack: Rack) -> None:
    for name in ("head", "shaft", "grip", "setting"):
        filling.text(name, getattr(spec, name), "Of the order.")
    stated = f"{figure_text(spec.loft / DEGREE)}, {figure_text(spec.lie / DEGREE)}, "
    filling.text("head_stated", f"{stated}{figure_text(spec.face / DEGREE)} deg", "Of the order.")
    piece = rack.pieces.get(spec.shaft_piece)
    if piece is not None and piece.sleeve in rack.sleeves:
        filling.text("sleeve", rack.sleeves[piece.sleeve].name)
    bore = next((one.bore for one in spec.settings if one.name == spec.setting), None)
    if spec.setting:
        filling.figure("sleeve_bore_deg", bore, DEGREE)
    filling.text("bond", "none" if spec.kept is Kept.CLUB else "glued")


def _targets(
    filling: _Filling,
    spec: ClubSpec,
    club: PartFigures,
    terms: Terms,
) -> None:
    filling.figure("target.length_inch", spec.length, INCH, "Of the order.")
    points = club.swingweight
    if points is None and club.mass is not None and club.balance is not None:
        points = terms.scale.index(club.mass * (club.balance - FULCRUM))
    if points is not None:
        filling.text("target.swingweight", letters(points), TESTED)
    filling.figure("target.mass_g", club.mass, GRAM, TESTED)
    if points is None or club.mass is None:
        filling.figure("target.club_moi_kgcm2", club.inertia, INERTIA, TESTED)
    filling.figure("target.frequency_cpm", club.frequency, CYCLE_PER_MINUTE, TESTED)
    filling.figure("target.clamp_mm", club.clamp, MILLIMETRE, TESTED)
    filling.figure("target.tip_mass_g", club.tip_mass, GRAM, TESTED)


def _angles(filling: _Filling, spec: ClubSpec, head: PartFigures, convention: Convention) -> None:
    """Ask for the angles of the tested club as it sat, so that a turned sleeve is judged whole."""
    told = {name: getattr(head, name) for name in ("loft", "lie", "face")}
    angles = HeadAngles(
        **{name: getattr(spec, name) if value is None else value for name, value in told.items()}
    )
    tested = as_set(angles, spec, spec.setting, convention)
    for name, value in told.items():
        source = "Of the order." if value is None else "Of the tested head, as measured."
        if spec.setting:
            source = f"{source[:-1]}, its sleeve at {spec.setting}."
        filling.figure(f"target.{name}_deg", getattr(tested, name), DEGREE, source)


def _head(
    filling: _Filling,
    spec: ClubSpec,
    rack: Rack,
    cards: Mapping[str, Sequence[MeasuredCard]],
    came: PartCame | None,
) -> None:
    figures, source = _newest(cards, spec.head_piece), OTHER_SAMPLE
    piece = rack.pieces.get(spec.head_piece)
    if figures.mass is None and piece is not None:
        figures = replace(figures, mass=piece.mass)
    if spec.kept.own_head:
        source = "Of the golfer’s own head."
    if came is not None:
        figures, source = came.figures, CAME
        filling.text("head_serial", came.serial, CAME)
    filling.figure("head.mass_g", figures.mass, GRAM, source)
    if came is not None or spec.kept.own_head:
        for name in ("loft", "lie", "face"):
            filling.figure(f"head_{name}_deg", getattr(figures, name), DEGREE, source)


def _shaft(
    filling: _Filling,
    spec: ClubSpec,
    rack: Rack,
    cards: Mapping[str, Sequence[MeasuredCard]],
    came: PartCame | None,
    profile: MeasuredProfile | None,
) -> None:
    figures, source = _newest(cards, spec.shaft_piece), OTHER_SAMPLE
    piece = rack.pieces.get(spec.shaft_piece)
    if came is not None:
        figures, source = came.figures, CAME
        filling.text("shaft_serial", came.serial, CAME)
    elif figures.length is None and profile is not None:
        tip = None if profile.balance is None else profile.length - profile.balance
        figures = PartFigures(mass=profile.mass, length=profile.length, balance=tip)
    elif figures.mass is None and piece is not None:
        figures = PartFigures(mass=piece.mass, length=figures.length, balance=figures.balance)
    filling.figure("shaft.mass_g", figures.mass, GRAM, source)
    filling.figure("shaft.raw_length_inch", figures.length, INCH, source)
    filling.figure("shaft.balance_from_tip_inch", figures.balance, INCH, source)


def _small(filling: _Filling, spec: ClubSpec, came: Mapping[Part, PartCame]) -> None:
    grip, sleeve = came.get(Part.GRIP), came.get(Part.SLEEVE)
    if grip is not None:
        filling.figure("grip.mass_g", grip.figures.mass, GRAM, CAME)
        filling.figure("grip.length_inch", grip.figures.length, INCH, CAME)
        filling.figure("grip.balance_inch", grip.figures.balance, INCH, CAME)
    if sleeve is not None:
        filling.figure("parts.sleeve.mass_g", sleeve.figures.mass, GRAM, CAME)
    for name, place in _PLACES.items():
        if spec.setting or name not in {"sleeve", "screw"}:
            filling.text(f"parts.{name}.from_tip_inch", figure_text(place), PRACTICE)


def _newest(cards: Mapping[str, Sequence[MeasuredCard]], item: str) -> PartFigures:
    known = cards.get(item, ())
    return known[-1].figures if known else PartFigures()


def _profile(studio: Studio, piece: str) -> MeasuredProfile | None:
    kept = [one for one in studio.store.profiles().get(piece, ()) if not one.set_aside]
    return kept[-1] if kept else None
