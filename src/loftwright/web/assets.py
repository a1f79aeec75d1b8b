"""Files that the browser fetches once: styles, scripts and the typefaces of the installation."""

import re
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import Final

from fastapi import APIRouter, Request, Response

from loftwright.errors import NotFoundError
from loftwright.report.fonts import font_folders

STATIC: Final = Path(__file__).parent / "static"
FONT_STYLES: Final = "fonts.css"
_KINDS: Final = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml; charset=utf-8",
    ".png": "image/png",
    ".ttf": "font/ttf",
}
_FOR_EVER: Final = "public, max-age=31536000, immutable"
_FACES: Final = {
    "source-sans-3.ttf": ("SourceSans3[wght].ttf", "Source Sans 3", "normal", "200 900"),
    "source-sans-3-italic.ttf": (
        *("SourceSans3-Italic[wght].ttf", "Source Sans 3", "italic", "200 900"),
    ),
    "source-serif-4.ttf": ("SourceSerif4[opsz,wght].ttf", "Source Serif 4", "normal", "200 900"),
    "source-serif-4-italic.ttf": (
        *("SourceSerif4-Italic[opsz,wght].ttf", "Source Serif 4", "italic", "200 900"),
    ),
}

_IMPORTED: Final = re.compile(r'(\bfrom |\bimport |\bimport\()"\./([\w-]+\.js)"')

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asset:
    """A file with the first letters of its digest."""

    content: bytes
    digest: str
    kind: str


def asset(name: str) -> Asset:
    """Return a file by the name under which pages ask for it.

    Parameters
    ----------
    name : str
        Below `/static/`.

    Raises
    ------
    NotFoundError
        If there is no such file.
    """
    if name == FONT_STYLES:
        return _made(_font_styles().encode(), ".css")
    path = _file(name)
    content = _read(path, path.stat().st_mtime_ns)
    if path.suffix == ".js":
        content = _IMPORTED.sub(_exact_import, content.decode()).encode()
    return _made(content, path.suffix)


def asset_url(name: str) -> str:
    """Return the address of a file, which changes with its content."""
    return f"/static/{name}?v={asset(name).digest}"


@router.get("/static/{name:path}")
def send_asset(request: Request, name: str) -> Response:
    """Send a file; kept for ever under the address of its content, else asked for again."""
    found = asset(name)
    tag = f'"{found.digest}"'
    exact = request.query_params.get("v") == found.digest
    headers = {"ETag": tag, "Cache-Control": _FOR_EVER if exact else "no-cache"}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    return Response(found.content, media_type=found.kind, headers=headers)


def _file(name: str) -> Path:
    folder, _, rest = name.partition("/")
    if folder == "fonts" and rest in _FACES:
        wanted = _FACES[rest][0]
        return next(path for one in font_folders() if (path := one / wanted).is_file())
    path = STATIC / PurePosixPath(name.replace("\0", ""))
    inside = "\0" not in name and path.resolve().is_relative_to(STATIC.resolve())
    if not inside or path.suffix not in _KINDS or not path.is_file():
        raise NotFoundError("there is no such file", place=f"/static/{name}", mend="Go to Today.")
    return path


@lru_cache(maxsize=256)
def _read(path: Path, changed: int) -> bytes:  # noqa: ARG001 - a changed file is read anew
    return path.read_bytes()


def _exact_import(found: re.Match[str]) -> str:
    """Return an import under the address that pages use, or one script would run twice."""
    return f'{found.group(1)}"{asset_url(found.group(2))}"'


@lru_cache(maxsize=256)
def _made(content: bytes, suffix: str) -> Asset:
    return Asset(content=content, digest=sha256(content).hexdigest()[:16], kind=_KINDS[suffix])


def _font_styles() -> str:
    return "".join(
        "@font-face{"
        f'font-family:"{family}";font-style:{style};font-weight:{weights};font-display:swap;'
        f'src:url("{asset_url(f"fonts/{name}")}") format("truetype")'
        "}\n"
        for name, (_, family, style, weights) in _FACES.items()
    )
