"""What of the shop record may stand behind a comparison that leaves the shop, as of now."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any, Final

from loftwright.bay.now import FittingNow
from loftwright.bay.setups import SetUp, set_ups
from loftwright.constants import DEGREE
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.rack import HeadModel, Rack, ShaftModel, State
from loftwright.errors import NotFoundError
from loftwright.physics.sleeve import Convention
from loftwright.services.family_picture import shaft_words
from loftwright.services.settings import read_settings
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.studio import Studio
from loftwright.shop.columns import DELIVERY, RESPONSES
from loftwright.shop.publishing import LEAST_GOLFERS, Chosen, Hit, permitted
from loftwright.shop.record import columns_in, files

_KEYS: Final = ("fitting", "golfer", "club", "head", "model", "piece", "speed", "device")
_WHOLE: Final = (
    *(one.column for one in RESPONSES if one.column not in _KEYS),
    *(one.column for one in DELIVERY if one.column != "face_to_path"),
    *("path", "strike_toe", "strike_high"),
)
"""What a ball must have to be in the sums."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What balls were hit with, as far as enough golfers share it.

    Attributes
    ----------
    days : tuple of date
        Of every visit.
    balls : tuple of str
        Kinds of ball that at least five golfers hit.
    devices : tuple of DeviceCard
    """

    days: tuple[date, ...]
    balls: tuple[str, ...]
    devices: tuple[DeviceCard, ...]


def agreed(studio: Studio) -> frozenset[str]:
    """Return the record's codes of golfers who agreed to publishing and to the shop record.

    A minor cannot agree to it.
    """
    return frozenset(code_of_golfer(one) for one in studio.store.to_publish())


def publishable_hits(studio: Studio) -> tuple[Hit, ...]:
    """Return the clubs of the record that may stand behind a comparison.

    Notes
    -----
    Consent, invented fittings and locked pieces are looked up in the studio as it stands, not in
    the record: what was withdrawn a minute ago counts.
    """
    rack = studio.store.rack()
    held = {one.id for one in rack.pieces.values() if one.state is State.LOCKED}
    codes = agreed(studio)
    real = {one.fitting: one.golfer for one in studio.store.outlines() if not one.invented}
    hits = [
        hit
        for hit in hits_in(record_folder(studio))
        if hit.golfer in codes
        and hit.fitting in real
        and code_of_golfer(real[hit.fitting]) == hit.golfer
    ]
    convention = read_settings(studio).settings.convention
    return permitted(_with_set_ups(studio, hits, convention), codes, held)


def hits_in(folder: Path) -> tuple[Hit, ...]:
    """Return every club of every fitting of a record, with its whole and marked balls."""
    found: dict[tuple[str, ...], dict[str, int]] = {}
    for file in files(folder):
        whole = columns_in(file, (*_KEYS, *_WHOLE)).drop_null().select(list(_KEYS))
        counts = whole.group_by(list(_KEYS)).aggregate([([], "count_all")])
        for row in counts.to_pylist():
            key = tuple(row[name] or "" for name in _KEYS[:-1])
            found.setdefault(key, {})[row["device"]] = int(row["count_all"])
    return tuple(
        Hit(
            **dict(zip(_KEYS[:-1], key, strict=True)),
            devices=devices,
            balls=sum(devices.values()),
        )
        for key, devices in sorted(found.items())
    )


def surroundings(studio: Studio, chosen: Chosen) -> Surroundings:
    """Return when and with what the chosen balls were hit."""
    days: set[date] = set()
    devices: dict[str, DeviceCard] = {}
    by_ball: dict[str, set[str]] = {}
    owners = {hit.fitting: hit.golfer for hit in chosen.hits}
    for fitting, golfer in owners.items():
        now = studio.standing(fitting)
        for visit in now.visits:
            days.add(visit.day)
            devices[visit.device.name] = visit.device
        by_ball.setdefault(now.strip.ball.strip(), set()).add(golfer)
    return Surroundings(
        days=tuple(sorted(days)),
        balls=tuple(
            ball for ball, who in sorted(by_ball.items()) if ball and len(who) >= LEAST_GOLFERS
        ),
        devices=tuple(devices.values()),
    )


def measured_by_all(devices: Iterable[DeviceCard]) -> tuple[str, ...]:
    """Return the quantities that every one of these devices measures."""
    told = [
        [means for means, origin in device.origins.items() if origin is Origin.MEASURED]
        for device in devices
    ]
    return tuple(
        means for means in (told[0] if told else ()) if all(means in other for other in told[1:])
    )


def model_words(rack: Rack, kind: str) -> Mapping[str, str]:
    """Return the rack's models of a kind in words, by id."""
    models: dict[str, Any] = {**(rack.shafts if kind == "shaft" else rack.heads)}
    return {name: _words(model) for name, model in models.items()}


def _words(model: ShaftModel | HeadModel) -> str:
    if isinstance(model, ShaftModel):
        return shaft_words(model)
    printed = " ".join(part for part in (model.name, f"{model.loft / DEGREE:.1f}°") if part)
    return f"{printed} ({model.generation})" if model.generation else printed


def _with_set_ups(studio: Studio, hits: Iterable[Hit], convention: Convention) -> list[Hit]:
    """Return clubs with their head's sample and how its sleeve sat."""
    standing: dict[str, dict[str, SetUp]] = {}
    found = []
    for hit in hits:
        if hit.fitting not in standing:
            standing[hit.fitting] = _set_ups(studio, hit.fitting, convention)
        known = standing[hit.fitting].get(hit.club)
        if known is not None:
            found.append(replace(hit, head_piece=known.card.head_piece, setting=_turned(known)))
    return found


def _set_ups(studio: Studio, fitting: str, convention: Convention) -> dict[str, SetUp]:
    try:
        now: FittingNow = studio.standing(fitting)
    except NotFoundError:
        return {}
    return set_ups(now, convention)


def _turned(known: SetUp) -> str:
    """Return what the sleeve does to the head, to a tenth of a degree."""
    card, angles = known.card, known.angles
    return " ".join(
        f"{round(one / DEGREE, 1) + 0.0:.1f}"
        for one in (angles.loft - card.loft, angles.lie - card.lie, angles.face - card.face)
    )
