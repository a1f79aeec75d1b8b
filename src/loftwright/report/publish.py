"""A picture made fit to publish: its publication block under it, as SVG or PNG."""

import re
from base64 import b64encode
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from functools import cache
from html import escape, unescape
from typing import Final, cast

from loftwright.domain.names import OWN, TREES
from loftwright.errors import InputError
from loftwright.report.fonts import SANS, font_folders
from loftwright.report.glyphs import printable
from loftwright.report.look import INK, SHEET
from loftwright.report.picture_parts import label, stroke, text_width
from loftwright.report.typesetting import typefaces

MARGIN: Final = 32.0
"""White around the picture and its block, in the picture's units."""

SCALE: Final = 2.0
"""Points of a PNG for a unit of the picture."""

_LINE = 23.0
_PAGE: Final = (
    b"#set page(width: auto, height: auto, margin: 0pt)\n"
    b'#image(bytes(sys.inputs.svg), format: "svg", width: eval(sys.inputs.width))\n'
)
_NARROWEST = 620.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """How a published picture came about; every entry is words, none may be empty.

    Attributes
    ----------
    samples : str
        How many of what were measured.
    obtained : str
        How the figures were obtained.
    ball : str
    device : str
        The class of device, never its make.
    golfers : str
        Whose balls they were, without a name.
    dates : str
    program : str
        Version of this program.
    ranges : str
        What the ranges mean.
    funding : str, optional
        Who paid; left out where it is not asked.
    """

    samples: str
    obtained: str
    ball: str
    device: str
    golfers: str
    dates: str
    program: str
    ranges: str
    funding: str | None = None

    def __post_init__(self) -> None:
        for field in fields(self):
            told = getattr(self, field.name)
            if told is not None and not told.strip():
                raise InputError(
                    f"the publication block does not say its {_NAMES[field.name].lower()}",
                    place=field.name,
                    mend="Say it in words; write `none` or `not known` where that is so.",
                )


_NAMES: Final = {
    "samples": "Samples",
    "obtained": "How obtained",
    "ball": "Ball",
    "device": "Device class",
    "golfers": "Golfers",
    "dates": "Dates",
    "program": "Program",
    "ranges": "Ranges",
    "funding": "Funding",
}
_NO_PERSONAL_DATA = "No personal data in this picture."


def published_svg(
    svg: str, block: Publication, *, private: Sequence[str] = (), carry_font: bool = True
) -> str:
    """Return a picture with its publication block under it, on white.

    Parameters
    ----------
    svg : str
        A drawing of this program in literal colours, with its width and height.
    block : Publication
    private : sequence of str
        Names of golfers and others that a published picture must not hold.
    carry_font : bool
        Put the typeface into the file, so that it looks alike everywhere.

    Raises
    ------
    InputError
        If a private name stands in the picture or its block.
    ValueError
        If the picture is made for the screen, or has no size.
    """
    width, height = _size(svg)
    told = list(_told(block))
    words = [unescape(text) for text in re.findall(r">([^<]+)<", svg)]
    _refuse_names([*words, *(text for _, text in told)], private)
    wide = max(width, _NARROWEST)
    lines = _lines(told, wide)
    base = MARGIN + height + 26.0
    full = wide + 2.0 * MARGIN, base + _LINE * len(lines) + MARGIN
    placed = svg.replace("<svg ", f'<svg x="{MARGIN:.0f}" y="{MARGIN:.0f}" ', 1)
    title = re.search(r"<title[^>]*>([^<]*)</title>", svg)
    name = title.group(1) if title else "Picture"
    parts = [
        f"<style>{_font_face()}</style>" if carry_font else "",
        f'<rect width="{full[0]:.0f}" height="{full[1]:.0f}" fill="{SHEET}"/>',
        placed,
        stroke(f"M{MARGIN:.1f} {base - 10:.1f}H{full[0] - MARGIN:.1f}", colour=INK, width=2.0),
    ]
    for index, (names, text) in enumerate(lines):
        y = base + 14.0 + _LINE * index
        if names:
            parts.append(label(MARGIN, y, names, bold=True))
        parts.append(label(MARGIN + _NAME_WIDTH, y, text))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{full[0]:.0f}" height="{full[1]:.0f}" '
        f'viewBox="0 0 {full[0]:.0f} {full[1]:.0f}" role="img" aria-label="{name}">'
        f"<desc>{escape(' '.join(f'{one}: {text}.' for one, text in told))}</desc>"
        f"{''.join(parts)}</svg>"
    )


def published_png(
    svg: str, block: Publication, *, private: Sequence[str] = (), scale: float = SCALE
) -> bytes:
    """Return a picture with its publication block under it as PNG, the same bytes every time.

    Parameters
    ----------
    svg : str
        A drawing of this program in literal colours, with its width and height.
    block : Publication
    private : sequence of str
        Names that a published picture must not hold.
    scale : float
        Points for a unit of the picture.

    Raises
    ------
    InputError
        If a private name stands in the picture or its block.
    ValueError
        If the picture is made for the screen, or has no size.

    Notes
    -----
    The typesetter draws it, because it sets a variable font in the weights that the picture asks
    for; the renderer of the charts knows only the lightest one.
    """
    import typst  # noqa: PLC0415 - only paper needs it

    whole = published_svg(svg, block, private=private, carry_font=False)
    width, _ = _size(whole)
    compiler = typst.Compiler(
        _PAGE,
        font_paths=typefaces(),
        ignore_system_fonts=True,
        sys_inputs={"svg": whole, "width": f"{width:g}pt"},
    )
    return cast("bytes", compiler.compile(format="png", ppi=72.0 * scale))


_NAME_WIDTH = 16.0 + max(text_width(name, bold=True) for name in _NAMES.values())


def _size(svg: str) -> tuple[float, float]:
    if "var(" in svg:
        raise ValueError("a picture for the screen cannot be published: its colours are tokens")
    found = re.match(r'<svg [^>]*?\bwidth="([\d.]+)"[^>]*?\bheight="([\d.]+)"', svg)
    if found is None:
        raise ValueError("a picture without width and height cannot be published")
    return float(found.group(1)), float(found.group(2))


def _told(block: Publication) -> Iterator[tuple[str, str]]:
    for field in fields(block):
        told = getattr(block, field.name)
        if told is not None:
            yield _NAMES[field.name], printable(told.strip())
    yield "Privacy", _NO_PERSONAL_DATA


def _refuse_names(texts: Sequence[str], private: Sequence[str]) -> None:
    """Refuse a picture that says a name, whole or in part, whatever its case.

    A part that is also what clubs are called here says nothing of a person.
    """
    clubs = {club.lower() for club in (*TREES, OWN)}
    for name in private:
        parts = [part for part in name.split() if part.lower() not in clubs and len(part) > 1]
        for words in (name.strip(), *parts):
            word = re.compile(rf"(?<!\w){re.escape(words)}(?!\w)", re.IGNORECASE)
            if words and any(word.search(text) for text in texts):
                raise InputError(
                    "the picture or its block names a person",
                    place="publication",
                    mend="Draw it without the name, and leave it out of the block.",
                )


def _lines(told: Sequence[tuple[str, str]], wide: float) -> list[tuple[str, str]]:
    """Break every entry to the width; only its first line has the entry's name."""
    lines = []
    for name, text in told:
        line, head = "", name
        for word in text.split():
            longer = f"{line} {word}".strip()
            if line and text_width(longer) > wide - _NAME_WIDTH:
                lines.append((head, line))
                line, head = word, ""
            else:
                line = longer
        lines.append((head, line))
    return lines


@cache
def _font_face() -> str:
    """Return the typeface as a style sheet that carries its file."""
    folder = font_folders()[0]
    file = next(path for path in sorted(folder.glob("*.ttf")) if "Italic" not in path.name)
    data = b64encode(file.read_bytes()).decode("ascii")
    return (
        f"@font-face{{font-family:'{SANS}';font-weight:200 900;"
        f"src:url(data:font/ttf;base64,{data}) format('truetype')}}"
    )
