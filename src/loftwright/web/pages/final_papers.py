"""A receipt to take along: on paper, and as the two files that any bench can check again."""

from typing import Final

from fastapi import APIRouter, Request, Response

from loftwright.domain.piece_code import code_of
from loftwright.errors import NotFoundError
from loftwright.report.final_paper import FinalReceipt, final_pdf
from loftwright.report.final_rounds import departure_line
from loftwright.report.final_words import names_of
from loftwright.report.screen_numbers import Show
from loftwright.services.final_check import HeldRound, held_rounds, sheet_at
from loftwright.services.settings import read_settings, show_of
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.web.state import Here
from loftwright.workshop.final import final_now
from loftwright.workshop.stages import agreed_quote

router = APIRouter(include_in_schema=False)

_SHOP: Final = "/fittings/{fitting}/final-check"
_BENCH: Final = "/build/{fitting}/final-check"
_TOML: Final = "application/toml"


@router.get(f"{_SHOP}/receipt.pdf")
@router.get(f"{_BENCH}/receipt.pdf")
def get_receipt(fitting: str, studio: Here, request: Request) -> Response:
    """Print a receipt; the newest without a number."""
    one, sheet = _round(studio, fitting, request)
    settings = read_settings(studio).settings
    show = show_of(settings)
    opened = studio.store.fitting(fitting).value
    made = FinalReceipt(
        player=studio.store.identity(opened.golfer).initials,
        code=code_of(fitting),
        studio=settings.shop,
        club=_club(studio, fitting, show),
        revision=one.round.revision,
        number=one.round.number,
        checked=one.checked,
        received=one.round.received,
        unread=names_of(one.open_points.unread),
        departures=tuple(departure_line(two, show) for two in sheet.departures),
    )
    return _file(final_pdf(made, show), "receipt.pdf", "application/pdf", shown="inline")


@router.get(f"{_SHOP}/measured.toml")
@router.get(f"{_BENCH}/measured.toml")
def get_measured(fitting: str, studio: Here, request: Request) -> Response:
    """Give a receipt's readings as a file of measurements."""
    one, _ = _round(studio, fitting, request)
    return _file(one.round.received.measured.encode(), "MEASURED.toml", _TOML)


@router.get(f"{_SHOP}/build.toml")
@router.get(f"{_BENCH}/build.toml")
def get_build(fitting: str, studio: Here, request: Request) -> Response:
    """Give the build file that a receipt was held against, with what was built otherwise."""
    _, sheet = _round(studio, fitting, request)
    return _file(sheet.as_built.encode(), "BUILD.toml", _TOML)


def _round(studio: Studio, fitting: str, request: Request) -> tuple[HeldRound, SheetNow]:
    """Return the receipt that is asked for, and the sheet as it stood then."""
    if is_training(fitting):
        raise NotFoundError("a training case has no receipt", place="final-check")
    record = studio.store.job_record(fitting)
    asked = request.query_params.get("round", "")
    rounds = held_rounds(record, final_now(record, studio.now()))
    for one in reversed(rounds):
        sheet = sheet_at(record, one.round)
        if sheet is not None and asked in {"", str(one.round.number)}:
            return one, sheet
    raise NotFoundError(
        f"there is no receipt {asked}".rstrip(),
        place="round",
        mend="Keep one on the final check's page, or choose another there.",
    )


def _club(studio: Studio, fitting: str, show: Show) -> tuple[tuple[str, str], ...]:
    """Return what was ordered; nothing where no order was agreed to."""
    record = studio.store.job_record(fitting)
    agreed = agreed_quote(record)
    if agreed is None:
        return ()
    spec, sheet = agreed.quote.spec, sheet_now(record)
    setting = spec.setting if sheet is None else sheet.issued.fields.get("setting", spec.setting)
    told = (
        ("Head", spec.head),
        ("Shaft", spec.shaft),
        ("Grip", spec.grip),
        ("Loft ordered, before the sleeve", show.angle(spec.loft)),
        ("Sleeve", setting),
        ("Length", show.length(spec.length)),
    )
    return tuple((name, words) for name, words in told if words)


def _file(content: bytes, name: str, kind: str, *, shown: str = "attachment") -> Response:
    return Response(
        content,
        media_type=kind,
        headers={
            "Content-Disposition": f'{shown}; filename="{name}"',
            "Cache-Control": "no-store",
        },
    )
