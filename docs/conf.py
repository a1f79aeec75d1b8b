"""How the documentation is built: Sphinx with MyST Markdown and numpydoc, no remote parts."""

import re
from typing import TYPE_CHECKING, Final

from loftwright import __version__

if TYPE_CHECKING:
    from sphinx.application import Sphinx

project = "Loftwright"
author = "the Loftwright authors"
project_copyright = "2026, the Loftwright authors"
version = release = __version__

extensions = ["myst_parser", "sphinx.ext.autodoc", "numpydoc"]
exclude_patterns = ["_build", "examples", "pictures.py"]
myst_enable_extensions = ["colon_fence"]
myst_heading_anchors = 3
default_role = "code"
highlight_language = "text"

autodoc_default_options = {"members": True, "member-order": "bysource", "ignore-module-all": True}
autodoc_typehints = "none"
numpydoc_show_class_members = False

html_theme = "alabaster"
html_title = f"Loftwright {version}"
html_show_sourcelink = False
html_theme_options = {
    "description": "From the balls a golfer hit to the club that suits",
    "show_powered_by": False,
    "page_width": "1080px",
    "font_family": "serif",
}

_UNDERLINE: Final = re.compile(r"^-{3,}$")


def _tidied(
    app: "Sphinx", what: str, name: str, thing: object, options: object, lines: list[str]
) -> None:
    """Set the underlined headings of a module's docstring in bold, its sources line by line."""
    del app, name, thing, options
    if what != "module":
        return
    heading = ""
    for place, line in enumerate(lines):
        if place + 1 < len(lines) and _UNDERLINE.match(lines[place + 1]):
            heading = line
            lines[place] = f"**{line}**"
        elif _UNDERLINE.match(line):
            lines[place] = ""
        elif heading == "References" and line.strip():
            lines[place] = f"| {line}"


def setup(app: "Sphinx") -> None:
    """Join Sphinx's events."""
    app.connect("autodoc-process-docstring", _tidied, priority=400)
