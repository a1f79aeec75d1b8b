"""Names that nobody could miss, put into every field, address and file that the studio takes."""

import re
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any
from urllib.parse import quote, urlsplit

from web_client import WebClient

NAME = "Zephyrine Quillfeather"
MAIL = "quillfeather@hush.example"
NOTE = "Kestrelmoor hurts Zephyrine's wrist"
MARKS = ("zephyrine", "quillfeather", "hush.example", "kestrelmoor")
"""What must not be found, whatever else stands around it."""
FILE = "Quillfeather swings of Zephyrine.csv"
_TYPED = {"text", "search", "tel", "url", ""}


@dataclass
class Form:
    """A form of a page: where it goes and what it sends."""

    action: str
    files: bool = False
    values: dict[str, str] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    """Names of the fields that a person types into, with their kind."""

    @property
    def shape(self) -> tuple[str, tuple[str, ...]]:
        """What is alike in forms that do the same for different things."""
        return re.sub(r"[0-9a-f]{8}-[0-9a-f-]{27}|\d+", "*", self.action), tuple(self.values)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.forms: list[Form] = []
        self.links: list[str] = []
        self._form: Form | None = None
        self._select = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        if tag == "a" and "href" in told:
            self.links.append(told["href"])
        elif tag == "form" and told.get("method", "get").lower() == "post":
            self._form = Form(action=told.get("action", ""))
            self.forms.append(self._form)
        elif self._form is not None:
            self._field(self._form, tag, told)

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._form = None

    def _field(self, form: Form, tag: str, told: dict[str, str]) -> None:
        name, kind = told.get("name", ""), told.get("type", "").lower()
        if tag == "select":
            self._select = name
            form.values[name] = ""
        elif tag == "option" and (not form.values[self._select] or "selected" in told):
            form.values[self._select] = told.get("value", "")
        elif tag == "textarea" or (tag == "input" and kind in _TYPED and name):
            form.values[name] = form.typed[name] = told.get("value", "")
        elif tag == "input" and kind == "file":
            form.files = True
        elif (tag in {"input", "button"}) and name and (kind != "radio" or "checked" in told):
            form.values[name] = told.get("value", "on")


def walk(client: WebClient, first: tuple[str, ...], most: int) -> dict[object, Form]:
    """Return every kind of form on the pages that links lead to, and ask for these pages."""
    waiting, seen, found = deque(first), set[object](), dict[object, Form]()
    asked = 0
    while waiting and asked < most:
        path = waiting.popleft()
        kind = re.sub(r"[0-9a-f]{8}-[0-9a-f-]{27}", "*", path)
        if kind in seen:
            continue
        seen.add(kind)
        asked += 1
        answer = client.get(path)
        if "text/html" not in answer.headers.get("content-type", ""):
            continue
        reader = _Reader()
        reader.feed(answer.text)
        for form in reader.forms:
            form.action = form.action or path
            found.setdefault(form.shape, form)
        waiting.extend(link for link in map(_inside, reader.links) if link)
    return found


def _inside(link: str) -> str:
    parts = urlsplit(link)
    return "" if parts.netloc or not parts.path else parts.path


def filled(form: Form) -> Iterator[dict[str, Any]]:
    """Yield what a form sends with a name where a person types, and with one everywhere."""
    yield {"data": form.values | {name: _for(name) for name in form.typed}}
    yield {"data": dict.fromkeys(form.values, NAME) | {"note": NOTE, "mail": MAIL, "golfer": NAME}}
    if form.files:
        table = f"ball,club,golfer,note\n1,{NAME},{MAIL},{NOTE}\n".encode()
        for content in (table, NAME.encode("utf-16"), b"\x00\xff" + NAME.encode()):
            yield {"data": form.values, "files": {"file": (FILE, content, "text/csv")}}


def _for(name: str) -> str:
    return MAIL if "mail" in name or "contact" in name else NOTE if "note" in name else NAME


def named_paths(shapes: tuple[str, ...]) -> list[str]:
    """Return the address of every route with a name for each of its parameters."""
    told = quote(NAME)
    return [f"{re.sub(r'{[^}]*}', told, shape)}?q={told}&kept={told}" for shape in shapes]
