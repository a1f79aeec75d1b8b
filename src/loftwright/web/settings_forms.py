"""The shop's settings in forms: its own words, its devices, its fitters' double readings."""

from dataclasses import replace
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.domain.device import Origin
from loftwright.domain.fitting import FARTHEST_MARK, MARK_ERROR, DeviceCard
from loftwright.errors import InputError
from loftwright.physics.sleeve import Convention
from loftwright.report.screen_numbers import Show
from loftwright.services.settings import DECIMALS, UNITS, Settings
from loftwright.web.forms import LONGEST_TEXT, Typed

COLUMNS: Final = (
    *("ball speed", "launch", "direction", "spin", "axis", "head speed"),
    *("attack", "path", "face", "dynamic loft", "strike toe", "strike high"),
    *("carry", "total", "offline", "peak height", "landing angle", "flight time"),
)
"""What a device may show, in the words of the column list."""

FEWEST_MARKS: Final = 5
MOST_MARKS: Final = 40
_MOST_BAYS: Final = 24

Marks = list[tuple[float, float]]


def read_shop(typed: Typed, known: Settings) -> Settings | None:
    """Return the settings with the shop's own words; None if a field cannot be."""
    bays = tuple(
        dict.fromkeys(line.strip() for line in typed.fields.get("bays", "").splitlines() if line)
    )
    bays = tuple(bay for bay in bays if bay)
    if len(bays) > _MOST_BAYS:
        typed.fail("bays", f"{len(bays)} bays are too many", f"Name {_MOST_BAYS} at most.")
    shop, currency = typed.text("shop"), typed.text("currency", most=12)
    zone = typed.text("zone", need="Give its usual name, as Europe/Vienna.")
    units = typed.one_of("units", UNITS, known.units)
    decimal = typed.one_of("decimal", DECIMALS, known.decimal)
    convention = typed.word("convention", Convention, known.convention)
    if not typed.good:
        return None
    return typed.tried(
        "shop",
        lambda: replace(
            known,
            shop=shop,
            zone=zone,
            currency=currency,
            bays=bays,
            units=units,
            decimal=decimal,
            convention=convention,
        ),
    )


def shop_values(settings: Settings) -> dict[str, str]:
    """Return what the shop's form holds."""
    return {
        "shop": settings.shop,
        "zone": settings.zone,
        "currency": settings.currency,
        "bays": "\n".join(settings.bays),
        "units": settings.units,
        "decimal": settings.decimal,
        "convention": settings.convention.value,
    }


def read_device(typed: Typed, known: Settings) -> Settings | None:
    """Return the settings with one device written down, new or anew; None if it cannot be."""
    name = typed.text("device", need="Write what the device is called here.")
    chosen = {means: typed.word(field_of(means), Origin, Origin.ABSENT) for means in COLUMNS}
    origins: dict[str, Origin] = {
        means: origin for means, origin in chosen.items() if origin != Origin.ABSENT
    }
    error = typed.quantity("mark_error", "mark")
    if error is not None and not 0.0 < error <= 0.05:
        typed.fail(
            "mark_error", "an error cannot be so large", "Give more than 0 and 50 mm at most."
        )
    if not typed.good:
        return None
    card = DeviceCard(
        name=name, origins=origins, mark_error=MARK_ERROR if error is None else error
    )
    before = typed.fields.get("before", "")
    gone = {before, name}
    if name != before and any(device.name == name for device in known.devices):
        typed.fail("device", "another device is called so", "Give it another name.")
        return None
    devices = [device for device in known.devices if device.name not in gone]
    places = [device.name for device in known.devices]
    devices.insert(places.index(before) if before in places else len(devices), card)
    return replace(known, devices=tuple(devices))


def device_values(device: DeviceCard, show: Show) -> dict[str, str]:
    """Return what a device's form holds."""
    values = {field_of(means): device.origins.get(means, Origin.ABSENT).value for means in COLUMNS}
    return {
        "device": device.name,
        "before": device.name,
        "mark_error": show.typed("mark", device.mark_error),
        **values,
    }


def field_of(means: str) -> str:
    """Return the name of the field in which a column's origin is chosen."""
    return f"origin_{means.replace(' ', '_')}"


def read_marks(typed: Typed, name: str) -> Marks | None:
    """Return marks of a face written as `toe, high` in millimetres, one a line [m]."""
    text = typed.text(name, most=10 * LONGEST_TEXT)
    lines = [line for part in text.splitlines() for line in part.split(";") if line.strip()]
    if len(lines) > MOST_MARKS:
        typed.fail(name, f"{len(lines)} marks are too many", f"Read {MOST_MARKS} at most.")
        return None
    return typed.tried(name, lambda: [_mark(line, name) for line in lines])


def _mark(line: str, name: str) -> tuple[float, float]:
    parts = line.replace("\N{MINUS SIGN}", "-").split(",")
    try:
        toe, high = (float(part) * MILLIMETRE for part in parts)
    except ValueError:
        raise InputError(
            f"{line.strip()!r} is no mark",
            place=name,
            mend="Write toe and high in millimetres: 12, -4.",
        ) from None
    if not max(abs(toe), abs(high)) <= FARTHEST_MARK:
        raise InputError(
            f"{line.strip()!r} lies beside the head", place=name, mend="Give 80 mm at most."
        )
    return toe, high
