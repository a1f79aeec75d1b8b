"""Settings: the shop's words and units, its devices, its fitters' marks, who is let in."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.fitting import DeviceCard
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.health import Pulse
from loftwright.services.settings import (
    Settings,
    change_settings,
    marking_error,
    read_settings,
    show_of,
    with_mark_error,
)
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.pairing import pairing_view
from loftwright.web.render import has_page, render
from loftwright.web.settings_forms import (
    FEWEST_MARKS,
    device_values,
    read_device,
    read_marks,
    read_shop,
    shop_values,
)
from loftwright.web.state import Here
from loftwright.web.views.installation import installation_rows
from loftwright.web.views.last_backup import last_backup
from loftwright.web.views.settings import marking_face, marking_words, settings_view

router = APIRouter(prefix="/settings", include_in_schema=False)

_KEPT: Final = {
    "shop": "Saved.",
    "device": "The device is written down.",
    "removed": "The device is taken off the list; fittings keep what it was.",
}


@router.get("")
def show_settings(request: Request, studio: Here) -> Response:
    """Show the settings."""
    return _page(request, studio, kept=_KEPT.get(request.query_params.get("kept", ""), ""))


@router.post("")
def change_shop(request: Request, studio: Here, fields: Fields) -> Response:
    """Keep the shop's own words, units and conventions."""
    return _change(request, studio, fields, form="shop", read=read_shop, anchor="shop")


@router.post("/devices")
def change_device(request: Request, studio: Here, fields: Fields) -> Response:
    """Write a device down, new or anew."""
    return _change(request, studio, fields, form="device", read=read_device, anchor="meters")


@router.post("/devices/remove")
def remove_device(request: Request, studio: Here, fields: Fields) -> Response:
    """Take a device off the list."""

    def without(typed: Typed, known: Settings) -> Settings:
        name = typed.text("device")
        left = tuple(device for device in known.devices if device.name != name)
        return replace(known, devices=left)

    return _change(
        request, studio, fields, form="device", read=without, anchor="meters", kept="removed"
    )


@router.get("/marking")
def ask_for_marks(request: Request) -> Response:
    """Show the bare face for the first reading."""
    return _marking(request, Filled())


@router.post("/marking")
def read_again(request: Request, studio: Here, fields: Fields) -> Response:
    """Take the first reading and ask for the second, or tell what the two gave."""
    typed = Typed(fields=fields)
    fitter = typed.text("fitter", need="Write whose marks these are.")
    first = read_marks(typed, "first")
    if first is not None and len(first) < FEWEST_MARKS:
        typed.fail(
            "first",
            f"{len(first)} marks are too few",
            f"Read {FEWEST_MARKS} or more; ten are better.",
        )
    if not typed.good or first is None:
        return _marking(request, typed.filled, status=422)
    if "again" not in fields:
        return _marking(request, typed.filled, second=len(first))
    again = read_marks(typed, "again")
    if again is not None and typed.good:
        try:
            error = marking_error(first, again)
        except InputError as refused:
            typed.fail("again", refused.message, refused.mend)
        else:
            known = read_settings(studio)
            settings = with_mark_error(known.settings, fitter, error)
            change_settings(studio, settings, version=known.version)
            told = marking_words(error, len(first), fitter, show_of(settings))
            return _marking(request, Filled(), told=told)
    return _marking(request, typed.filled, second=len(first), status=422)


def _change(
    request: Request,
    studio: Studio,
    fields: dict[str, str],
    *,
    form: str,
    read: Callable[[Typed, Settings], Settings | None],
    anchor: str,
    kept: str = "",
) -> Response:
    """Read a form into the settings, keep them, and show what came of it."""
    known = read_settings(studio)
    typed = Typed(fields=fields, show=show_of(known.settings))
    version = typed.whole("version", least=0, most=999_999_999, need="Open the page again.")
    settings = read(typed, known.settings)
    if settings is None or version is None or not typed.good:
        return _page(request, studio, forms={form: typed.filled}, status=422)
    try:
        change_settings(studio, settings, version=version)
    except ConflictError as error:
        stale = f"Not saved: {error.message}."
        return _page(request, studio, forms={form: typed.filled}, stale=stale, status=409)
    return RedirectResponse(f"/settings?kept={kept or form}#{anchor}", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    *,
    forms: Mapping[str, Filled] | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    known = read_settings(studio)
    settings = known.settings
    show = show_of(settings)
    pulse: Pulse = request.app.state.pulse
    installation = installation_rows(pulse.look(), studio.folder, pulse.log_path)
    filled = forms or {}
    return render(
        request,
        "settings.html",
        status=status,
        view=settings_view(settings, show, installation),
        makes_bundle=has_page(request, "/settings/bundle"),
        shop_form=filled.get("shop") or Filled(typed=shop_values(settings)),
        device_form=filled.get("device") or Filled(typed=_device_values(request, settings)),
        device_open="device" in filled or "device" in request.query_params,
        version=known.version,
        pairing=pairing_view(request, "/settings"),
        learns_spin=has_page(request, "/spin"),
        has_terms=has_page(request, "/settings/terms"),
        has_record=has_page(request, "/shop"),
        last_backup=last_backup(studio.folder, studio.now(), studio.zone),
        kept=kept,
        stale=stale,
    )


def _device_values(request: Request, settings: Settings) -> dict[str, str]:
    """Return what the device's form holds: the one that is asked for, else a new one."""
    name, show = request.query_params.get("device", ""), show_of(settings)
    if not name:
        return {**device_values(DeviceCard(name=""), show), "before": ""}
    found = next((device for device in settings.devices if device.name == name), None)
    if found is None:
        raise NotFoundError(
            f"no device is called {name!r}", place="device", mend="Choose one of the list."
        )
    return device_values(found, show)


def _marking(
    request: Request, form: Filled, *, second: int = 0, told: str = "", status: int = 200
) -> Response:
    return render(
        request,
        "marking.html",
        status=status,
        form=form,
        second=second,
        told=told,
        face=marking_face(),
        fewest=FEWEST_MARKS,
    )
