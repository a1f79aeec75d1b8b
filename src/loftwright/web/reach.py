"""Which fittings a device's role lets it reach; its pages are the door's to say."""

from typing import Final

from fastapi import Request

from loftwright.errors import NotFoundError
from loftwright.services.day import is_in_progress
from loftwright.services.studio import Studio
from loftwright.web.roles import IN_PROGRESS

NOW_ALONE: Final = ("screen", "feed")
"""Roles of devices that reach a fitting only while its visit of today is on."""


def reaches(request: Request, studio: Studio, fitting: str) -> bool:
    """Return whether the device that asks may have a fitting."""
    device = getattr(request.state, "device", None)
    if device is None or device.role not in NOW_ALONE:
        return True
    return is_in_progress(studio, fitting)


def must_reach(request: Request, studio: Studio, fitting: str) -> None:
    """Refuse a fitting that the device that asks may not have, as if it were not there.

    Raises
    ------
    NotFoundError
        If it may not.
    """
    if not reaches(request, studio, fitting):
        raise NotFoundError(
            "no fitting in progress is at this address",
            place="fitting",
            mend=f"Ask {IN_PROGRESS} which are, or open /screen.",
        )
