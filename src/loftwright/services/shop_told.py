"""What a shop has learned, of the things that stand in its rack, as pages tell it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.domain.rack import Rack, ShaftModel
from loftwright.evidence.shop_beliefs import SWING_EFFECTS
from loftwright.report.shop_words import Believed, Known
from loftwright.services.belongings import (
    ANY_GOLFER,
    GolferKind,
    belongs_of,
    generation_name,
)
from loftwright.services.shop_folder import place_of
from loftwright.services.shop_names import LEVEL_WORDS, member, model_name
from loftwright.services.studio import Studio
from loftwright.shop.columns import FEATURES, RESPONSES, STRIKE_UNIT
from loftwright.shop.learned import Offset, ShopLearned
from loftwright.shop.levels import KINDS, LEVELS, LINE, Belongs, Effects

Figures: TypeAlias = dict[str, Believed]

LAUNCH: Final[Mapping[str, float]] = {one.column: one.unit for one in RESPONSES}
"""What a club does to launch from the same swing, in order, with the unit of the sums."""

SWING: Final[Mapping[str, float]] = {
    "head_speed": MILE_PER_HOUR,
    "attack": DEGREE,
    "face_to_path": DEGREE,
    "face": DEGREE,
    "toe": STRIKE_UNIT,
    "high": STRIKE_UNIT,
}
"""What a club does to a swing, in order, with the unit of the sums."""


_FROM_SWING: Final = [FEATURES.index(name) for name in SWING_EFFECTS]


def model_belongs(rack: Rack, name: str) -> Belongs:
    """Return what a model of shafts belongs to, whatever head it is on."""
    model = rack.shafts.get(name)
    if model is None:
        return Belongs(model=name)
    return Belongs(family=model.family, generation=generation_name(model), model=name)


def shaft_known(
    learned: ShopLearned, rack: Rack, piece: str, kind: GolferKind = ANY_GOLFER
) -> Known:
    """Return what is known of a sample of a shaft, for one kind of golfers or over all of them.

    Parameters
    ----------
    learned : ShopLearned
    rack : Rack
    piece : str
    kind : GolferKind
    """
    model = rack.shafts.get(rack.pieces[piece].model)
    belongs = belongs_of(rack, "", piece, _seen_kind(learned.effects, model, kind))
    return known(learned, rack, belongs, "" if model is None else model_name(model), piece)


def whom_of(learned: ShopLearned, rack: Rack, piece: str, kind: GolferKind) -> GolferKind:
    """Return for which kind of golfers the record holds something of a shaft's model."""
    return _seen_kind(learned.effects, rack.shafts.get(rack.pieces[piece].model), kind)


def _seen_kind(effects: Effects, model: ShaftModel | None, kind: GolferKind) -> GolferKind:
    """Return a kind of golfers without what the record never saw this model hit by."""
    asked = Belongs(model="" if model is None else model.id, **_told(kind))
    seen = {one: getattr(kind, one) for one in KINDS if _hit(effects, one, asked.name(one))}
    return GolferKind(**seen)


def _told(kind: GolferKind) -> dict[str, str]:
    return {one: getattr(kind, one) for one in KINDS}


def _hit(effects: Effects, level: str, name: str) -> int:
    return effects.fittings.get((level, name), 0) if name else 0


def models_known(learned: ShopLearned, rack: Rack) -> tuple[Known, ...]:
    """Return what is known of every model of the shop's shafts that was hit, by their names."""
    brought = brought_by_golfers(rack)
    hit = [name for level, name in learned.effects.members if level == "model"]
    told = (
        known(
            learned,
            rack,
            model_belongs(rack, name),
            member(rack, "model", name),
            name,
        )
        for name in hit
        if name not in brought
    )
    return tuple(sorted(told, key=lambda one: one.name))


def brought_by_golfers(rack: Rack) -> frozenset[str]:
    """Return ids of samples and models that only stand in clubs that golfers brought."""
    own = {
        piece
        for club in rack.assemblies.values()
        if club.owner is not None
        for piece in (club.head, club.shaft)
    }
    shop = {one.model for one in rack.pieces.values() if one.id not in own}
    return frozenset(own | ({rack.pieces[one].model for one in own if one in rack.pieces} - shop))


def known(learned: ShopLearned, rack: Rack, belongs: Belongs, name: str, item: str = "") -> Known:
    """Return what is known of what belongs to something.

    Parameters
    ----------
    learned : ShopLearned
    rack : Rack
    belongs : Belongs
    name : str
        As people call it.
    item : str
        Its id in the rack.
    """
    rests = _rests_on(learned.effects, rack, belongs)
    if rests is None:
        return Known(level="", name=name, fittings=0, figures={}, id=item)
    swung, same = _figures(learned, belongs)
    return replace(rests, name=name, figures=swung, same=same, id=item)


def _rests_on(effects: Effects, rack: Rack, belongs: Belongs) -> Known | None:
    """Return on which fittings rests what is known of a shaft; None where nothing is."""
    own = True
    for level in reversed(LINE):
        name = belongs.name(level)
        if not name:
            continue
        hit = effects.fittings.get((level, name), 0)
        if hit:
            source = "" if own else f"of its {LEVEL_WORDS[level]}"
            return Known(level=level, name="", fittings=hit, figures={}, source=source)
        if (level, name) in effects.like:
            known = effects.source((level, name))
            return Known(
                level=level,
                name="",
                fittings=effects.fittings.get((level, known.like), 0),
                figures={},
                source=member(rack, level, known.like),
                likeness=known.likeness,
            )
        own = False
    return None


def _figures(learned: ShopLearned, belongs: Belongs) -> tuple[Figures, Figures]:
    """Return what a shaft does as it is swung, with the swing itself, and from the same swing."""
    own, own_doubt = _of_shafts(learned.effects, belongs)
    swing, swing_doubt = _of_shafts(learned.swing_effects, belongs)
    ways = slopes_of(learned)[_FROM_SWING]
    swung = _believed(own + swing @ ways, own_doubt + ways.T @ swing_doubt @ ways, LAUNCH)
    return swung | _believed(swing, swing_doubt, SWING), _believed(own, own_doubt, LAUNCH)


def slopes_of(learned: ShopLearned) -> FloatArray:
    """Return slopes of launch on strike and delivery at the usual golfer, physics and all."""
    return np.asarray(learned.launch.slopes + learned.physics)


def _of_shafts(effects: Effects, belongs: Belongs) -> tuple[FloatArray, FloatArray]:
    """Return what a shaft does against the usual one, whatever head it is on."""
    mean, covariance = effects.of(belongs)
    more = np.zeros(len(mean))
    for place, level in enumerate(LEVELS):
        # By how much heads and kinds of golfers differ says nothing of a shaft over all of them.
        if level not in LINE and not belongs.name(level):
            more += effects.variances[place]
    return mean, np.asarray(covariance - np.diag(more))


def _believed(mean: FloatArray, doubt: FloatArray, units: Mapping[str, float]) -> Figures:
    sd = np.sqrt(np.maximum(np.diag(doubt), 0.0))
    return {
        name: Believed(mean=float(mean[place] * unit), sd=float(sd[place] * unit))
        for place, (name, unit) in enumerate(units.items())
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A line of what was learned: a thing and its place below what it belongs to.

    Attributes
    ----------
    level : str
    depth : int
        0 for what belongs to nothing above it.
    mark : str
        What a sample is told from the others by, below its model; empty of anything else.
    """

    level: str
    depth: int
    known: Known
    mark: str = ""


def shafts_told(learned: ShopLearned, rack: Rack) -> tuple[Told, ...]:
    """Return every family, generation, model and sample that was hit, each below the wider one.

    What a line says is the sum down to it: of a model, what its family and generation do too.
    Shafts that golfers brought are left out.
    """
    brought = brought_by_golfers(rack)
    lines: dict[tuple[str, ...], Told] = {}
    for level, name in learned.effects.members:
        if level not in LINE or name in brought:
            continue
        belongs = _line_of(rack, level, name)
        path = tuple(belongs.name(one) for one in LINE[: LINE.index(level) + 1])
        told = known(learned, rack, belongs, member(rack, level, name), _item(rack, level, name))
        depth = sum(bool(one) for one in path) - 1
        piece = rack.pieces.get(name) if level == "piece" and depth else None
        mark = "" if piece is None else piece.label
        lines[path] = Told(level=level, depth=depth, known=told, mark=mark)
    return tuple(told for _, told in sorted(lines.items(), key=lambda one: _order(rack, one[0])))


def _order(rack: Rack, path: tuple[str, ...]) -> tuple[tuple[bool, str], ...]:
    """Put what belongs to nothing behind, and everything else below what it belongs to."""
    names = [member(rack, level, name) for level, name in zip(LINE, path, strict=False)]
    return tuple((not path[0], name) for name in names)


def _line_of(rack: Rack, level: str, name: str) -> Belongs:
    if level == "piece":
        piece = rack.pieces.get(name)
        model = Belongs() if piece is None else model_belongs(rack, piece.model)
        return replace(model, piece=name)
    if level == "model":
        return model_belongs(rack, name)
    if level == "generation":
        family = next(
            (one.family for one in rack.shafts.values() if generation_name(one) == name),
            "",
        )
        return Belongs(family=family, generation=name)
    return Belongs(family=name)


def heads_told(learned: ShopLearned, rack: Rack) -> tuple[Told, ...]:
    """Return every head of the shop that was hit, by its name."""
    brought = brought_by_golfers(rack)
    place = {one: number for number, one in enumerate(learned.effects.members)}
    told = []
    for level, name in learned.effects.members:
        hit = _hit(learned.effects, level, name)
        if level == "head" and name not in brought and hit:
            doubt = learned.effects.covariance[place[level, name], :, place[level, name], :]
            same = _believed(learned.effects.means[place[level, name]], doubt, LAUNCH)
            words = member(rack, level, name)
            one = Known(level=level, name=words, fittings=hit, figures=same, same=same)
            told.append(Told(level=level, depth=0, known=one))
    return tuple(sorted(told, key=lambda one: one.known.name))


def offset_figures(offset: Offset) -> dict[str, Believed]:
    """Return by how much a device or bay reads differently."""
    return _believed(offset.mean, np.diag(offset.sd**2), LAUNCH)


def _item(rack: Rack, level: str, name: str) -> str:
    return name if level == "piece" and name in rack.pieces else ""


def fittings_by_code(studio: Studio, codes: Sequence[str]) -> dict[str, str]:
    """Return the newest fitting of each golfer behind a code of the record."""
    wanted = set(codes)
    found: dict[str, str] = {}
    for opened in studio.store.fittings() if wanted else ():
        fitting, code = place_of(studio, opened.value)
        if code in wanted:
            found.setdefault(code, fitting)
    return found
