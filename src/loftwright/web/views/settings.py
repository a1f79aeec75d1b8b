"""The settings as their page shows them."""

from dataclasses import dataclass
from typing import Final

from loftwright.domain.device import Origin
from loftwright.domain.fitting import MARK_ERROR, DeviceCard
from loftwright.physics.sleeve import Convention
from loftwright.report.face_picture import face_picture
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.settings import Settings
from loftwright.web.settings_forms import COLUMNS, field_of
from loftwright.web.views.installation import Row
from loftwright.web.views.rack_rows import Choice

CONVENTIONS: Final = (
    Choice(
        value=Convention.A.value,
        text="A: the shaft stays where it was and is not twisted; the head turns under it",
    ),
    Choice(
        value=Convention.B.value,
        text="B: the head is soled flat; its loft stays, lie and face change",
    ),
    Choice(
        value=Convention.C.value,
        text="C: the face is squared about the shaft, which is held at its lie; loft changes",
    ),
)
UNIT_CHOICES: Final = (
    Choice(value="trade", text="Trade: yd, mph, in, °F"),
    Choice(value="metric", text="Metric: m, m/s, mm, °C"),
)
DECIMAL_CHOICES: Final = (
    Choice(value="point", text="Point: 12.5"),
    Choice(value="comma", text="Comma: 12,5"),
)
ORIGIN_CHOICES: Final = (
    Choice(value=Origin.ABSENT.value, text="Not there"),
    Choice(value=Origin.MEASURED.value, text="Measured"),
    Choice(value=Origin.CALCULATED.value, text="Calculated"),
    Choice(value=Origin.UNKNOWN.value, text="There, origin unknown"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceRow:
    """A device with what it gives, in words."""

    name: str
    measured: str
    calculated: str
    unknown: str
    mark_error: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnRow:
    """One column whose origin is chosen."""

    field: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FitterRow:
    """A fitter's own marking error."""

    name: str
    error: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingsView:
    """The settings' page."""

    sentence: str
    lead: str
    devices: tuple[DeviceRow, ...]
    fitters: tuple[FitterRow, ...]
    usual_error: str
    installation: tuple[Row, ...]
    columns: tuple[ColumnRow, ...] = tuple(
        ColumnRow(field=field_of(means), name=means.capitalize()) for means in COLUMNS
    )
    conventions: tuple[Choice, ...] = CONVENTIONS
    units: tuple[Choice, ...] = UNIT_CHOICES
    decimals: tuple[Choice, ...] = DECIMAL_CHOICES
    origins: tuple[Choice, ...] = ORIGIN_CHOICES


def settings_view(settings: Settings, show: Show, installation: tuple[Row, ...]) -> SettingsView:
    """Return the settings' page.

    Parameters
    ----------
    settings : Settings
    show : Show
    installation : tuple of Row
        What this installation is.
    """
    return SettingsView(
        sentence=_sentence(settings),
        lead=_lead(settings),
        devices=tuple(_device_row(device, show) for device in settings.devices),
        fitters=tuple(
            FitterRow(name=name, error=show.mark(error, 1))
            for name, error in settings.mark_errors.items()
        ),
        usual_error=show.mark(MARK_ERROR, 2),
        installation=installation,
    )


def marking_face() -> str:
    """Return the bare face that a double reading is tapped on."""
    return for_screen(face_picture([], prefix="reading"))


def marking_words(error: float, marks: int, fitter: str, show: Show) -> str:
    """Return what a double reading told.

    Parameters
    ----------
    error : float
        Standard error of one reading, one way [m].
    marks : int
    fitter : str
    show : Show
    """
    twice = show.mark(2.0 * error, 1)
    usual = (
        "more" if error > 1.25 * MARK_ERROR else "less" if error < 0.8 * MARK_ERROR else "about"
    )
    compared = {
        "more": "more than is usual",
        "less": "less than is usual",
        "about": "about as usual",
    }[usual]
    few = " Ten marks tell it better." if marks < 10 else ""
    return (
        f"{fitter}’s marks are off by {show.mark(error, 1)} either way, {compared}; nineteen in "
        f"twenty lie within {twice}.{few}"
    )


def _sentence(settings: Settings) -> str:
    if not settings.devices:
        return "No device is written down yet: what may be said rests on its columns."
    known = count(len(settings.devices), "device")
    whose = f"{settings.shop} has" if settings.shop else "The shop has"
    return f"{whose} {known} and {count(len(settings.bays), 'bay')}."


def _lead(settings: Settings) -> str:
    unknown = [
        device.name for device in settings.devices if Origin.UNKNOWN in device.origins.values()
    ]
    if unknown:
        return f"Of {listed(unknown)} it is not known what is measured and what is calculated."
    return "A calculated column explains nothing; a measured one may."


def _device_row(device: DeviceCard, show: Show) -> DeviceRow:
    strikes = any(means in device.origins for means in ("strike toe", "strike high"))
    return DeviceRow(
        name=device.name,
        measured=_columns(device, Origin.MEASURED),
        calculated=_columns(device, Origin.CALCULATED),
        unknown=_columns(device, Origin.UNKNOWN),
        mark_error=show.mark(device.mark_error, 1) if strikes else "no strike column",
    )


def _columns(device: DeviceCard, origin: Origin) -> str:
    names = [means for means in COLUMNS if device.origins.get(means) is origin]
    return ", ".join(names) or "none"
