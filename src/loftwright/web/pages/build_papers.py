"""A build sheet to print, the tag of its bond, and its build file."""

from fastapi import APIRouter, Response

from loftwright.errors import NotFoundError
from loftwright.report.sheet_paper import sheet_pdf, tag_pdf
from loftwright.services.build_sheets import BuildNow, build_now
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.state import Here
from loftwright.web.views.build_paper import paper_of
from loftwright.web.views.build_steps import clock_text

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/build/sheet.pdf")
@router.get("/build/{fitting}/sheet.pdf")
def get_sheet(fitting: str, studio: Here) -> Response:
    """Print the sheet that stands, with what was built otherwise."""
    now = _with_sheet(studio, fitting)
    settings = read_settings(studio).settings
    paper = paper_of(now, show_of(settings), studio=settings.shop, zone=studio.zone)
    return _pdf(sheet_pdf(paper), f"build-{now.code}-{paper.revision}.pdf")


@router.get("/fittings/{fitting}/build/tag.pdf")
@router.get("/build/{fitting}/tag.pdf")
def get_tag(fitting: str, studio: Here) -> Response:
    """Print the tag with the time before which nobody hits the club.

    Raises
    ------
    NotFoundError
        If no bond was made.
    """
    now = build_now(studio, fitting)
    bond = now.progress.bond
    if bond is None or not now.glued:
        raise NotFoundError(
            "no bond was made yet", place="bond", mend="Write the bond down on the build’s page."
        )
    paper = tag_pdf(
        code=now.code,
        not_before=clock_text(bond.not_before, studio.zone),
        mixed=clock_text(bond.mixed, studio.zone),
        adhesive=f"{bond.adhesive}, batch {bond.batch}" if bond.batch else bond.adhesive,
        day=studio.today(),
    )
    return _pdf(paper, f"tag-{now.code}.pdf")


@router.get("/fittings/{fitting}/build/BUILD.toml")
@router.get("/build/{fitting}/BUILD.toml")
def get_build_file(fitting: str, studio: Here) -> Response:
    """Return the sheet as a build file, with what was built otherwise; its targets stay.

    Raises
    ------
    NotFoundError
        If no sheet was issued.
    """
    now = _with_sheet(studio, fitting)
    text = now.sheet.as_built if now.sheet is not None else ""
    name = f"build-{now.code}.toml"
    return Response(
        text,
        media_type="application/toml",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def _with_sheet(studio: Studio, fitting: str) -> BuildNow:
    now = build_now(studio, fitting)
    if now.sheet is None:
        raise NotFoundError(
            "no sheet was issued yet", place="sheet", mend="Issue one on the build’s page."
        )
    return now


def _pdf(content: bytes, name: str) -> Response:
    return Response(
        content,
        media_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{name}"'},
    )
