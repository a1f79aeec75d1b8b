"""The forms of a page, as a browser would send them."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urlsplit


@dataclass(slots=True, kw_only=True)
class PageForm:
    """A form that posts something.

    Attributes
    ----------
    action : str
        Its path.
    fields : dict of str to str
        What it would send untouched, buttons among them.
    files : list of str
        Names of the fields for files.
    """

    action: str
    fields: dict[str, str] = field(default_factory=dict)
    files: list[str] = field(default_factory=list)


def forms_of(page: str, path: str) -> list[PageForm]:
    """Return the forms of a page that post something.

    Parameters
    ----------
    page : str
        Its HTML.
    path : str
        Its own, where a form without an action leads.
    """
    reader = _Reader(path)
    reader.feed(page)
    return [*reader.made, *reader.elsewhere]


class _Reader(HTMLParser):
    def __init__(self, path: str) -> None:
        super().__init__()
        self.path = path
        self.made: list[PageForm] = []
        self.elsewhere: list[PageForm] = []
        self.named: dict[str, PageForm] = {}
        self.open: PageForm | None = None
        self.chosen = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._begin(told)
            return
        form = self.named.get(told.get("form", ""), self.open)
        name = told.get("name", "")
        if form is None:
            return
        if tag == "button" and told.get("formaction"):
            fields = form.fields | ({name: told.get("value", "")} if name else {})
            action = urlsplit(told["formaction"]).path
            self.elsewhere.append(PageForm(action=action, fields=fields))
        elif name and tag == "input" and told.get("type") == "file":
            form.files.append(name)
        elif name and tag in {"input", "textarea", "button"}:
            form.fields.setdefault(name, told.get("value", ""))
        elif name and tag == "select":
            self.chosen = name
            form.fields.setdefault(name, "")
        if (
            tag == "option"
            and self.chosen
            and ("selected" in told or not form.fields[self.chosen])
        ):
            form.fields[self.chosen] = told.get("value", "")

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.open = None
        elif tag == "select":
            self.chosen = ""

    def _begin(self, told: dict[str, str]) -> None:
        action = urlsplit(told.get("action", "")).path or self.path
        form = PageForm(action=action)
        if told.get("method", "get").lower() == "post":
            self.made.append(form)
            self.open = form
        if told.get("id"):
            self.named[told["id"]] = form
