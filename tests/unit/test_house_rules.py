"""What the linters cannot see of the house rules in CONTRIBUTING."""

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "loftwright"
MODULES = sorted(SOURCE.rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
WRITTEN = ("src", "tests", "docs", "bench", "scripts", ".ci")
WRITTEN_ALONE = (
    *("README.md", "CONTRIBUTING.md", "SECURITY.md", "CHANGELOG.md"),
    *("Makefile", "pyproject.toml"),
)
WRITTEN_AS = {".py", ".md", ".toml", ".typ", ""}
MOST_LINES = 350
MOST_FUNCTION_LINES = 50
PLAIN_HELPER_LINES = 12
QUANTITY = re.compile(r"float|Array|Vector|Symmetric")
TRADE_UNITS = re.compile(r"_(yd|yds|mph|kmh|rpm|deg|mm|cm|ft|inch|degf|f|percent)$")
TRADE_FLOORS = {"intake", "report", "services", "web", "cli"}
FORBIDDEN = ("TODO", "FIXME", "XXX", "HACK", "breakpoint(", "import pdb", " print(")
ELSEWHERE = {
    "a ticket": re.compile(r"\b(?:[Ii]ssue|[Tt]icket|[Pp]ull request|PR) #?\d"),
    "a path of one machine": re.compile(r"(?<![\w.:/<-])/(?:root|work|mnt|tmp)/"),
}
A_PAGE_NAMED = re.compile(r"[\w-]+\.md\b")
NO_CODE = {
    tokenize.COMMENT,
    tokenize.NL,
    tokenize.NEWLINE,
    tokenize.INDENT,
    tokenize.DEDENT,
    tokenize.ENDMARKER,
}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def floor_of(path: Path) -> str:
    return path.relative_to(SOURCE).parts[0]


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def functions(path: Path) -> Iterator[Function]:
    for node in ast.walk(tree_of(path)):
        if isinstance(node, Function):
            yield node


def public_functions(path: Path) -> Iterator[tuple[str, Function]]:
    """Yield module-level functions and methods whose whole name is public."""
    if path.name.startswith("_"):
        return
    for node in tree_of(path).body:
        if isinstance(node, Function) and not node.name.startswith("_"):
            yield node.name, node
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for inner in node.body:
                if isinstance(inner, Function) and not inner.name.startswith("_"):
                    yield f"{node.name}.{inner.name}", inner


@cache
def code_lines_of(path: Path) -> frozenset[int]:
    """Return the lines that hold code: no comments, no blank lines."""
    text = path.read_text(encoding="utf-8")
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in NO_CODE:
            lines.update(range(token.start[0], token.end[0] + 1))
    return frozenset(lines)


def length_of(path: Path, function: Function) -> int:
    """Return the code lines of a function without its docstring."""
    lines = {
        line
        for line in code_lines_of(path)
        if function.lineno <= line <= (function.end_lineno or function.lineno)
    }
    first = function.body[0]
    if ast.get_docstring(function) is not None:
        lines -= set(range(first.lineno, (first.end_lineno or first.lineno) + 1))
    return len(lines)


def body_length_of(path: Path, function: Function) -> int:
    """Return the code lines below a function's signature and docstring."""
    signature = range(function.lineno, function.body[0].lineno)
    return length_of(path, function) - len(code_lines_of(path).intersection(signature))


def takes_quantities(function: Function) -> bool:
    """Return whether a parameter is a number or an array, whose unit no type tells."""
    arguments = function.args
    named = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
    types = [ast.unparse(one.annotation) for one in named if one.annotation is not None]
    return any(QUANTITY.search(text) for text in types)


def is_overload(function: Function) -> bool:
    return any(ast.unparse(one) == "overload" for one in function.decorator_list)


def bound_names(path: Path) -> Iterator[str]:
    """Yield every name that a module gives to a value, function or parameter."""
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            yield node.id
        elif isinstance(node, ast.arg):
            yield node.arg
        elif isinstance(node, Function):
            yield node.name


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_file_stays_below_350_lines(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) < MOST_LINES


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_function_stays_below_50_lines(path: Path) -> None:
    """A command's signature is its table of options: only what is below it counts."""
    length = body_length_of if floor_of(path) == "cli" else length_of
    lengths = {function.name: length(path, function) for function in functions(path)}
    assert {name: lines for name, lines in lengths.items() if lines >= MOST_FUNCTION_LINES} == {}


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_trade_units_stay_at_the_edges(path: Path) -> None:
    if floor_of(path) not in TRADE_FLOORS:
        assert [name for name in bound_names(path) if TRADE_UNITS.search(name)] == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_public_functions_say_what_numbers_they_take(path: Path) -> None:
    """Short helpers, and functions of values that name themselves, may say it in one line.

    The docstring of a command is its help, whose options the signature describes.
    """
    silent = []
    for name, function in public_functions(path):
        if is_overload(function):
            continue
        text = ast.get_docstring(function)
        long = length_of(path, function) > PLAIN_HELPER_LINES and floor_of(path) != "cli"
        if text is None or (long and takes_quantities(function) and "Parameters\n" not in text):
            silent.append(name)
    assert silent == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_values_are_frozen(path: Path) -> None:
    loose = []
    for node in ast.walk(tree_of(path)):
        if not isinstance(node, ast.ClassDef):
            continue
        for decorator in node.decorator_list:
            text = ast.unparse(decorator)
            if text.startswith("dataclass") and not {
                "frozen=True",
                "slots=True",
                "kw_only=True",
            } <= (set(text.removeprefix("dataclass(").removesuffix(")").split(", "))):
                loose.append(node.name)
    assert loose == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_nothing_unfinished_is_left(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert [word for word in FORBIDDEN if word in text] == []


@cache
def written() -> dict[Path, str]:
    """Return the text of every file that people wrote."""
    paths = [ROOT / name for name in WRITTEN_ALONE]
    for folder in WRITTEN:
        paths += [path for path in sorted((ROOT / folder).rglob("*")) if path.is_file()]
    return {
        path: path.read_text(encoding="utf-8")
        for path in paths
        if path.suffix in WRITTEN_AS
        and not path.name.startswith(".")
        and "_build" not in path.parts
    }


@pytest.mark.parametrize("what", ELSEWHERE)
def test_nothing_points_outside_the_repository(what: str) -> None:
    pattern = ELSEWHERE[what]
    assert [name_of(path) for path, text in written().items() if pattern.search(text)] == []


def test_every_page_that_is_named_is_in_the_repository() -> None:
    there = {path.name for path in written()}
    lost = {
        f"{name_of(path)}: {name}"
        for path, text in written().items()
        for name in A_PAGE_NAMED.findall(text)
        if name not in there
    }
    assert lost == set()


def test_names_of_test_files_are_unique() -> None:
    names = [path.name for path in TESTS if path.name != "conftest.py"]
    assert sorted({name for name in names if names.count(name) > 1}) == []


def test_unit_tests_mirror_the_floors() -> None:
    folders = {path.name for path in (ROOT / "tests" / "unit").iterdir() if path.is_dir()}
    floors = {path.name for path in SOURCE.iterdir() if path.is_dir()}
    assert folders - {"__pycache__"} <= floors - {"__pycache__"}
