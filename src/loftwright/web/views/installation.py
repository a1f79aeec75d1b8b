"""What this installation is and how it is, as the settings show it; and the bundle for help."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.report.numbers import count, listed
from loftwright.services.diagnostics import Bundle
from loftwright.services.health import Health, Status

_DATABASES: Final = {
    "sqlite": "SQLite, one file in the data folder",
    "postgresql": "PostgreSQL, which several bays can share",
    "memory": "memory, which keeps nothing",
}
_STATUSES: Final = {
    Status.OK: "Well.",
    Status.DEGRADED: "Every ball is kept, and something wants a look",
    Status.FAILING: "Nothing can be kept",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A line of the table; `code` says whether it is a path."""

    name: str
    value: str
    code: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BundlePart:
    """A file of the bundle, as it can be read before it is saved."""

    name: str
    says: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BundleView:
    """The bundle's page.

    Attributes
    ----------
    save : str
        Address of exactly what is shown.
    """

    sentence: str
    lead: str
    name: str
    save: str
    parts: tuple[BundlePart, ...]


def installation_rows(health: Health, folder: Path, log_path: Path | None) -> tuple[Row, ...]:
    """Return the table of this installation.

    Parameters
    ----------
    health : Health
    folder : Path
        Where everything is kept.
    log_path : Path, optional
        None where the program writes no file.
    """
    room = "not told by the disk" if health.room is None else _size(health.room)
    log = Row(name="Program’s log", value=str(log_path or "not written to a file"), code=True)
    return (
        Row(name="How it is", value=_how(health)),
        Row(name="Version", value=health.version),
        Row(name="Schema of the store", value=health.schema or "not told by the store"),
        Row(name="Store", value=_DATABASES.get(health.database, health.database)),
        Row(name="Data folder", value=str(folder), code=True),
        Row(name="Room left on its disk", value=room),
        log,
    )


def bundle_view(bundle: Bundle, save: str) -> BundleView:
    """Return the page on which a bundle is read before it is saved.

    Parameters
    ----------
    bundle : Bundle
    save : str
        Address under which it is saved.
    """
    return BundleView(
        sentence=f"{count(len(bundle.parts), 'file')} for whoever helps, and nobody’s data in "
        "them.",
        lead="What you read below is all that is saved. Nothing leaves this machine by itself.",
        name=bundle.name,
        save=save,
        parts=tuple(
            BundlePart(name=one.name, says=one.says, text=one.text) for one in bundle.parts
        ),
    )


def _how(health: Health) -> str:
    said = _STATUSES[health.status]
    return f"{said}: {listed(list(health.troubles))}." if health.troubles else said


def _size(room: int) -> str:
    return f"{room / 1e9:.0f} GB" if room >= 10e9 else f"{room / 1e9:.1f} GB"
