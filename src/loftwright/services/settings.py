"""What the shop has settled: its name, units, devices, fitters' marking errors and conventions."""

import json
import os
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any, Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from loftwright.constants import MILLIMETRE
from loftwright.domain.device import Origin
from loftwright.domain.fitting import MARK_ERROR, DeviceCard
from loftwright.errors import InputError
from loftwright.physics.sleeve import Convention
from loftwright.report.screen_numbers import Show
from loftwright.services.studio import Studio

NAME: Final = "shop"
_LOCAL_TIME: Final = Path("/etc/localtime")
UNITS: Final = ("trade", "metric")
DECIMALS: Final = ("point", "comma")


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The shop's settings.

    Attributes
    ----------
    units : {"trade", "metric"}
        What screens and paper show; keys of files and feeds always carry their own unit.
    decimal : {"point", "comma"}
    zone : str
        Name of the shop's time zone.
    convention : Convention
        How a sleeve's setting turns into loft, lie and face.
    devices : tuple of DeviceCard
    bays : tuple of str
    mark_errors : dict of str to float
        Error of a mark by fitter, from reading the same marks twice [m].
    """

    shop: str = ""
    units: str = "trade"
    decimal: str = "point"
    zone: str = "UTC"
    currency: str = ""
    convention: Convention = Convention.C
    devices: tuple[DeviceCard, ...] = ()
    bays: tuple[str, ...] = ("Bay 1",)
    mark_errors: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        _one_of(self.units, UNITS, "units")
        _one_of(self.decimal, DECIMALS, "decimal")
        if not self.bays:
            raise InputError("a studio needs a bay", place="bays", mend="Name at least one.")
        try:
            ZoneInfo(self.zone)
        except (ZoneInfoNotFoundError, ValueError):
            raise InputError(
                f"no time zone is called {self.zone!r}",
                place="zone",
                mend="Give its usual name, as Europe/Vienna.",
            ) from None

    def device(self, name: str) -> DeviceCard:
        """Return a device by its name; an unknown one measures nobody knows what."""
        known = (device for device in self.devices if device.name == name)
        return next(known, DeviceCard(name=name))

    def mark_error(self, fitter: str) -> float:
        """Return the error of a mark that a fitter reads [m]."""
        return self.mark_errors.get(fitter, MARK_ERROR)


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingsRead:
    """The settings and the version under which they were read."""

    settings: Settings
    version: int


def read_settings(studio: Studio) -> SettingsRead:
    """Return the shop's settings; the usual ones if nothing was ever settled."""
    kept = studio.store.setting(NAME)
    if not kept.value:
        return SettingsRead(settings=Settings(zone=machine_zone()), version=kept.version)
    return SettingsRead(settings=_from_record(json.loads(kept.value)), version=kept.version)


def show_of(settings: Settings) -> Show:
    """Return how figures are written in this shop, on screens and on paper."""
    return Show(units=settings.units, decimal=settings.decimal)


def machine_zone() -> str:
    """Return the name of this machine's time zone, or UTC where it does not tell."""
    named = os.environ.get("TZ", "").lstrip(":") or _LOCAL_TIME.resolve().as_posix()
    name = named.rpartition("zoneinfo/")[2]
    try:
        return ZoneInfo(name).key
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return "UTC"


def change_settings(studio: Studio, settings: Settings, *, version: int) -> int:
    """Keep the shop's settings and return their new version.

    Raises
    ------
    ConflictError
        If somebody else changed them since they were read.
    """
    text = json.dumps(asdict(settings), ensure_ascii=False, sort_keys=True)
    changed = studio.store.set_setting(NAME, text, version=version)
    studio.zone = ZoneInfo(settings.zone)
    return changed


def marking_error(first: list[tuple[float, float]], again: list[tuple[float, float]]) -> float:
    """Return a fitter's error from reading the same marks twice, blind.

    Parameters
    ----------
    first, again : list of (float, float)
        Toe and high of each mark, in the same order [m].

    Returns
    -------
    float
        Standard error of one reading, one way [m]; never below half a millimetre.

    Raises
    ------
    InputError
        If there are fewer than five marks, or the two readings differ in number.

    References
    ----------
    Dahlberg 1940, Statistical Methods for Medical and Biological Students: the error of one
    reading is the root of the sum of squared differences over twice their number (from memory).
    """
    if len(first) != len(again) or len(first) < 5:
        raise InputError(
            f"{len(first)} marks and {len(again)} second readings cannot be compared",
            place="double reading",
            mend="Read the same five marks or more twice; ten are better.",
        )
    squares = [
        (a - b) ** 2
        for one, other in zip(first, again, strict=True)
        for a, b in zip(one, other, strict=True)
    ]
    return float(max((sum(squares) / (2 * len(squares))) ** 0.5, 0.5 * MILLIMETRE))


def with_mark_error(settings: Settings, fitter: str, error: float) -> Settings:
    """Return settings in which a fitter's marks have this error."""
    return replace(settings, mark_errors={**settings.mark_errors, fitter: error})


def _from_record(record: dict[str, Any]) -> Settings:
    devices = tuple(
        DeviceCard(
            name=one["name"],
            origins={means: Origin(origin) for means, origin in one["origins"].items()},
            mark_error=one["mark_error"],
        )
        for one in record.pop("devices")
    )
    return Settings(
        **{
            **record,
            "devices": devices,
            "bays": tuple(record["bays"]),
            "convention": Convention(record["convention"]),
        }
    )


def _one_of(value: str, known: tuple[str, ...], place: str) -> None:
    if value not in known:
        raise InputError(f"{value!r} is unknown", place=place, mend=f"Give {' or '.join(known)}.")
