"""Let a head that is known by name or file meet a ball."""

from pathlib import Path
from types import MappingProxyType
from typing import Final

from loftwright.errors import IntakeError
from loftwright.physics.impact import (
    PUBLISHED_HEAD,
    REFERENCE_HEAD,
    Delivery,
    Head,
    Impact,
    strike,
)

__all__ = ["Delivery", "Head", "Impact", "find_head", "strike"]

NAMED_HEADS: Final = MappingProxyType({"reference": REFERENCE_HEAD, "published": PUBLISHED_HEAD})


def find_head(name: str) -> Head:
    """Return a head by its name, or read it from a file.

    Parameters
    ----------
    name : str
        `reference`, `published` or the path of a head file.

    Returns
    -------
    Head

    Raises
    ------
    IntakeError
        When there is no such file, or it is no head.
    """
    if name in NAMED_HEADS:
        return NAMED_HEADS[name]
    path = Path(name)
    if not path.is_file():
        raise IntakeError(
            f"there is no head or file of the name {name!r}",
            place="--head",
            mend=f"Give {', '.join(NAMED_HEADS)} or the path of a head file.",
        )
    from loftwright.intake.toml_files import read_head  # noqa: PLC0415 - only for files

    return read_head(path)
