"""What the source must not hold: ways to run text, to build queries of it, or to call out.

An exception stands here with its reason, and one that nothing needs any more fails too.
"""

import ast
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Final

import pytest

import loftwright
from loftwright.web.assets import STATIC
from loftwright.web.render import TEMPLATES, environment

SOURCE: Final = Path(loftwright.__file__).parent
MODULES: Final = sorted(SOURCE.rglob("*.py"))
PAGES: Final = sorted(TEMPLATES.rglob("*.html"))
SCRIPTS: Final = sorted(STATIC.glob("*.js"))

NO_CALLS: Final = frozenset({"eval", "exec", "compile", "__import__", "breakpoint", "input"})
NO_IMPORTS: Final = {
    "pickle": "it runs what it reads",
    "marshal": "it runs what it reads",
    "shelve": "it is pickle",
    "dill": "it is pickle",
    "cloudpickle": "it is pickle",
    "joblib": "it is pickle",
    "yaml": "tables, TOML and JSON are what we read",
    "xml": "no file of ours is XML, whose entities reach out",
    "lxml": "no file of ours is XML, whose entities reach out",
    "subprocess": "no other program is run",
    "pty": "no other program is run",
    "random": "what must not be guessed is from secrets, what must repeat has a seed",
    "ftplib": "nothing is fetched",
    "smtplib": "nothing is sent",
    "telnetlib": "nothing is sent",
    "xmlrpc": "nothing is asked elsewhere",
    "requests": "nothing is asked elsewhere",
    "httpx": "nothing is asked elsewhere",
    "aiohttp": "nothing is asked elsewhere",
    "urllib3": "nothing is asked elsewhere",
    "urllib.request": "nothing is asked elsewhere",
    "http.client": "nothing is asked elsewhere",
}
NO_ATTRIBUTES: Final = frozenset(
    {
        *("os.system", "os.popen", "os.execv", "os.execvp", "os.spawnv", "os.fork"),
        *("tempfile.mktemp", "ssl._create_unverified_context", "ssl.CERT_NONE"),
        *("hashlib.md5", "hashlib.sha1", "hashlib.new", "uuid.uuid1", "np.random.seed"),
        *("np.load", "numpy.load", "importlib.reload"),
    }
)
NO_NAMES: Final = frozenset({"md5", "sha1", "uuid1", "mktemp", "literal_column", "Template"})
NO_ARGUMENTS: Final = {"shell": True, "verify": False, "debug": True, "reload": True}

RUNS_SQL: Final = frozenset(
    {"execute", "executemany", "executescript", "exec_driver_sql", "sql", "raw_sql"}
)
SQL_OF_TEXT: Final = {
    ("store/copying.py", "_count_on"): "names of our own tables, which the schema declares",
    ("store/engine.py", "on_connect"): "pragmas, which are constants of the module",
    ("store/engine.py", "sqlite_engine_on"): "pragmas, which are constants of the module",
    ("store/erasing.py", "_write_anew"): "names of our own tables, which the schema declares",
    ("store/snapshot.py", "counts_in"): "names of tables that the file itself lists, in quotes",
    ("store/hearing.py", "_listen"): "the channel's name, a constant of the module",
    ("store/postgres.py", "_on_begin"): "a number that is a constant of the module",
}

SEEDED: Final = ("training", "evidence", "services", "shop", "bay")
"""Folders that draw numbers from a generator whose seed is kept or told."""

CIPHERS: Final = {
    "cryptography": {"x509"},
    "cryptography.exceptions": {"InvalidKey"},
    "cryptography.fernet": {"Fernet", "InvalidToken"},
    "cryptography.hazmat.primitives.kdf.argon2": {"Argon2id"},
}

OUR_DRAWING: Final = "a drawing of ours, in which whatever is named was escaped"
OUR_PART: Final = "a part that a template of ours drew, which escapes everything"
SAFE: Final = {
    "content.picture": OUR_DRAWING,
    "face": OUR_DRAWING,
    "one.picture": OUR_DRAWING,
    "picture.svg": OUR_DRAWING,
    "shortlist.picture": OUR_DRAWING,
    "svg": OUR_DRAWING,
    "v.picture": OUR_DRAWING,
    "view.drawn.picture.svg": OUR_DRAWING,
    "view.face": OUR_DRAWING,
    "view.picture": OUR_DRAWING,
    "view.picture.svg": OUR_DRAWING,
    "view.plan.picture": OUR_DRAWING,
    "view.svg": OUR_DRAWING,
    **{
        f"parts.{name}": OUR_PART
        for name in (
            *("bar", "care", "clubs", "doubtlist", "doubts", "face", "feel", "flight", "fly"),
            *("hand", "more", "order", "say", "strike", "strip", "told", "wait"),
        )
    },
}
"""Expressions in templates that are not escaped again."""

MARKUP: Final = {"web/markers.py": "a club's marker is of constants, its words are escaped"}
WRITES_HTML: Final = {
    "bench.js": "a verdict that our template drew",
    "parts.js": "a part that our template drew",
    "sheet.js": "a sheet that our template drew, asked for at our own address",
}
KEEPS_IN_BROWSER: Final = {
    "keys.js": "whether its keys are shown: on or off, nothing else",
    "lock.js": "when the page was last touched: a time, nothing else",
}

Found = dict[str, list[str]]


@cache
def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(text_of(path))


def naming(words: Iterable[str]) -> Iterator[Path]:
    """Yield the modules whose text holds one of some words: only these need reading closely."""
    wanted = re.compile("|".join(rf"\b{re.escape(word)}\b" for word in sorted(words)))
    return (path for path in MODULES if wanted.search(text_of(path)))


def name_of(path: Path) -> str:
    return path.relative_to(SOURCE).as_posix()


def in_source(look: Callable[[ast.Module], Iterator[str]], words: Iterable[str]) -> Found:
    """Return what a look finds, by module; each of its findings has one of the words."""
    found = {name_of(path): list(look(tree_of(path))) for path in naming(words)}
    return {name: what for name, what in found.items() if what}


@cache
def nodes_of(tree: ast.Module) -> tuple[ast.AST, ...]:
    """Return what the looks look at: calls, attributes, imports and functions."""
    kinds = ast.Call | ast.Attribute | ast.Import | ast.ImportFrom | ast.FunctionDef
    return tuple(node for node in ast.walk(tree) if isinstance(node, kinds))


def dotted(node: ast.Attribute) -> str:
    """Return a name with its module, such as os.system; empty where it is longer."""
    return f"{node.value.id}.{node.attr}" if isinstance(node.value, ast.Name) else ""


def called(node: ast.Call) -> str:
    """Return the last name of what is called."""
    if isinstance(node.func, ast.Attribute):
        return node.func.attr
    return node.func.id if isinstance(node.func, ast.Name) else ""


def forbidden_calls(tree: ast.Module) -> Iterator[str]:
    for node in nodes_of(tree):
        if isinstance(node, ast.Call):
            if isinstance(node.func, ast.Name) and node.func.id in NO_CALLS:
                yield ast.unparse(node)
            for given in node.keywords:
                value = given.value.value if isinstance(given.value, ast.Constant) else None
                if given.arg in NO_ARGUMENTS and value is NO_ARGUMENTS[given.arg]:
                    yield f"{given.arg}={value}"
        elif isinstance(node, ast.Attribute) and dotted(node) in NO_ATTRIBUTES:
            yield dotted(node)


def imported(tree: ast.Module) -> Iterator[tuple[str, str]]:
    """Yield every module that is imported, and each name that is taken from it."""
    for node in nodes_of(tree):
        if isinstance(node, ast.Import):
            yield from ((one.name, "") for one in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield from ((node.module, one.name) for one in node.names)


def forbidden_imports(tree: ast.Module) -> Iterator[str]:
    for module, name in imported(tree):
        parents = {module.split(".")[0], module, f"{module}.{name}"}
        if parents & NO_IMPORTS.keys():
            yield f"{module} {name}".strip()
        if name in NO_NAMES:
            yield f"{module} {name}"


def built_sql(tree: ast.Module) -> Iterator[str]:
    """Yield the function in which a query is put together of text."""
    for outer in nodes_of(tree):
        if not isinstance(outer, ast.FunctionDef):
            continue
        for node in ast.walk(outer):
            if not (isinstance(node, ast.Call) and node.args and _is_built(node.args[0])):
                continue
            if called(node) in RUNS_SQL or (
                isinstance(node.func, ast.Name) and called(node) == "text"
            ):
                yield outer.name


def _is_built(given: ast.expr) -> bool:
    """Return whether a text is put together, at once or before it is handed on."""
    if isinstance(given, ast.JoinedStr):
        return any(isinstance(part, ast.FormattedValue) for part in given.values)
    if isinstance(given, ast.BinOp):
        return isinstance(given.op, ast.Add | ast.Mod)
    return isinstance(given, ast.Call) and called(given) in {"format", "format_map", "join"}


def generators(tree: ast.Module) -> Iterator[str]:
    for node in nodes_of(tree):
        if isinstance(node, ast.Call) and called(node) == "default_rng":
            yield ast.unparse(node)


def test_nothing_runs_text_opens_a_shell_or_drops_a_check() -> None:
    assert (
        in_source(
            forbidden_calls,
            {*NO_CALLS, *NO_ARGUMENTS, *(one.split(".")[-1] for one in NO_ATTRIBUTES)},
        )
        == {}
    )


def test_nothing_is_imported_that_runs_what_it_reads_or_calls_out() -> None:
    assert in_source(forbidden_imports, {*NO_NAMES, *NO_IMPORTS, "urllib", "http"}) == {}


def test_queries_are_put_together_by_the_database_layer() -> None:
    found = {
        (name, one)
        for name, ones in in_source(built_sql, {*RUNS_SQL, "text"}).items()
        for one in ones
    }
    assert found == set(SQL_OF_TEXT)


def test_what_must_not_be_guessed_is_not_drawn_from_a_seeded_generator() -> None:
    found = in_source(generators, {"default_rng"})
    assert {name for name in found if not name.startswith(SEEDED)} == set()
    unseeded = {name: one for name, ones in found.items() for one in ones if one.endswith("()")}
    assert unseeded == {}
    for module in ("services/pairing.py", "store/keys.py", "services/studio.py"):
        assert module not in found
    names = set(imported(tree_of(SOURCE / "services" / "pairing.py")))
    assert ("secrets", "") in names


def test_one_cipher_is_used_and_no_weak_digest() -> None:
    taken = {
        (module, name)
        for path in naming({"cryptography", "Crypto", "nacl"})
        for module, name in imported(tree_of(path))
        if module.split(".")[0] in {"cryptography", "Crypto", "nacl"}
    }
    allowed = {(module, name) for module, names in CIPHERS.items() for name in names}
    assert taken == allowed
    digests = {
        name
        for path in naming({"hashlib"})
        for module, name in imported(tree_of(path))
        if module == "hashlib"
    }
    digests |= {
        node.attr
        for path in naming({"hashlib"})
        for node in nodes_of(tree_of(path))
        if isinstance(node, ast.Attribute) and dotted(node).startswith("hashlib.")
    }
    assert digests - {""} <= {"sha256", "file_digest", "scrypt"}


@pytest.mark.parametrize(
    ("bad", "look"),
    [
        ("eval(x)", forbidden_calls),
        ("run(x, shell=True)", forbidden_calls),
        ("FastAPI(debug=True)", forbidden_calls),
        ("import os\nos.system(x)", forbidden_calls),
        ("import hashlib\nhashlib.md5(x)", forbidden_calls),
        ("import pickle", forbidden_imports),
        ("from urllib import request", forbidden_imports),
        ("from xml.etree import ElementTree", forbidden_imports),
        ("from uuid import uuid1", forbidden_imports),
        ("def ask(c, x):\n    c.execute(f'SELECT {x}')", built_sql),
        ("def ask(c, x):\n    c.execute('SELECT ' + x)", built_sql),
        ("def ask(c, x):\n    c.execute(text('SELECT {}'.format(x)))", built_sql),
    ],
)
def test_each_look_finds_what_it_looks_for(
    bad: str, look: Callable[[ast.Module], Iterator[str]]
) -> None:
    assert list(look(ast.parse(bad))) != []


def test_templates_escape_everything_but_what_we_drew() -> None:
    assert environment().autoescape is True
    found: dict[str, list[str]] = {}
    for page in PAGES:
        text = page.read_text(encoding="utf-8")
        assert "autoescape" not in text, page.name
        for one in re.findall(r"\{[{%]([^{}]*?)\|\s*safe\b", text):
            found.setdefault(one.strip(), []).append(page.name)
    assert {one: found[one] for one in found.keys() - SAFE.keys()} == {}
    assert SAFE.keys() - found.keys() == set()


def test_words_become_markup_in_one_place() -> None:
    named = {
        name_of(path)
        for path in naming({"Markup", "HTMLString"})
        if any(name in {"Markup", "HTMLString"} for _, name in imported(tree_of(path)))
    }
    assert named == set(MARKUP)


def test_templates_are_files_of_ours_and_never_text_from_elsewhere() -> None:
    def looks(tree: ast.Module) -> Iterator[str]:
        for node in nodes_of(tree):
            if isinstance(node, ast.Call) and called(node) in {"from_string", "Environment"}:
                yield called(node)

    assert in_source(looks, {"from_string", "Environment"}) == {"web/render.py": ["Environment"]}


def test_templates_hold_no_script_style_or_handler_and_name_nothing_elsewhere() -> None:
    bad = re.compile(
        r"<style\b|<script(?![^>]*\bsrc=)|\sstyle\s*=|\son[a-z]+\s*=\s*[\"']|javascript:|"
        r"https?://|(?:href|src|action)\s*=\s*[\"']//",
        re.IGNORECASE,
    )
    assert {page.name: bad.findall(page.read_text("utf-8")) for page in PAGES} == {
        page.name: [] for page in PAGES
    }


def test_scripts_write_html_only_where_a_template_of_ours_drew_it() -> None:
    written = re.compile(r"\.(?:innerHTML|outerHTML)\s*=[^=]|insertAdjacentHTML|document\.write")
    found = {one.name for one in SCRIPTS if written.search(one.read_text("utf-8"))}
    assert found == set(WRITES_HTML)


def test_scripts_run_no_text_and_listen_to_no_other_window() -> None:
    bad = re.compile(
        r"\beval\s*\(|new Function\b|set(?:Timeout|Interval)\(\s*[\"'`]|postMessage|"
        r"\.srcdoc|window\.open\(|createContextualFragment|WebSocket|XMLHttpRequest"
    )
    assert [one.name for one in SCRIPTS if bad.search(one.read_text("utf-8"))] == []


def test_scripts_keep_nothing_of_a_golfer_in_the_browser() -> None:
    kept = re.compile(r"localStorage|sessionStorage|indexedDB|caches\.|document\.cookie")
    found = {one.name for one in SCRIPTS if kept.search(one.read_text("utf-8"))}
    assert found == set(KEEPS_IN_BROWSER)
    kept_words = {
        name: re.findall(r"setItem\((.*?)\);", (STATIC / name).read_text(encoding="utf-8"))
        for name in KEEPS_IN_BROWSER
    }
    assert kept_words == {
        "keys.js": ['KEPT, on ? "on" : "off"'],
        "lock.js": ["LOCKED, String(Date.now())", "TOUCHED, String(Date.now())"],
    }


def test_scripts_and_styles_name_no_address_elsewhere() -> None:
    for path in (*SCRIPTS, *STATIC.glob("*.css")):
        text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
        assert re.findall(r"(?:https?:|wss?:)?//[\w-]+\.[\w.]+", text) == [], path.name
