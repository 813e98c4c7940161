"""The house rules that no single module can hold: how long a module may be, and what importing it may bring in."""

from __future__ import annotations

import ast
import importlib
import re
import subprocess
import sys
import tomllib
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import networkx
import pytest
from textual.binding import Binding

from store.records.whole import KINDS
from store.rules.core.findings import SEVERITIES
from templates.sheets.catalogue import SHEETS
from tests.sources import nodes
from tui.screen.app import StudbookApp
from tui.screen.keys import JOB_KEYS
from tui.view.verbs import BY_LABEL, key_of
from tui.views.index import VIEWS, Views

ROOT = Path(__file__).parents[1]
PACKAGES = ("store", "templates", "tui", "tests")
HARD_LINES = 600
"""No module is longer: past it a layer is missing."""
SOFT_LINES = 400
"""A module that is longer must be named in LONG, with a reason."""
LONG: dict[str, str] = {}
"""Modules allowed past SOFT_LINES, and why. There is none."""

MODULES = sorted(path for package in PACKAGES for path in (ROOT / package).rglob("*.py"))


def _lines(path: Path) -> int:
    return len(path.read_text("utf-8").splitlines())


def test_the_modules_are_found() -> None:
    names = {path.relative_to(ROOT).as_posix() for path in MODULES}
    assert {"store/book/book.py", "templates/starters/load.py", "tui/cli/main.py", "tests/test_house.py"} <= names


def test_no_module_is_too_long() -> None:
    lengths = {path.relative_to(ROOT).as_posix(): _lines(path) for path in MODULES}
    assert {name: count for name, count in lengths.items() if count > HARD_LINES} == {}
    assert {name: count for name, count in lengths.items() if count > SOFT_LINES and name not in LONG} == {}
    assert [name for name in LONG if lengths.get(name, 0) <= SOFT_LINES] == []


def _brought_in(statement: str) -> set[str]:
    """The modules that a fresh interpreter has loaded after a statement."""
    done = subprocess.run(
        [sys.executable, "-c", f"import sys\n{statement}\nprint(*sys.modules)"],
        cwd=ROOT, capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    return set(done.stdout.split())


def _under(loaded: set[str], *packages: str) -> list[str]:
    return sorted(
        name for name in loaded if name in packages or name.startswith(tuple(f"{each}." for each in packages))
    )


@pytest.mark.parametrize(
    ("module", "never"),
    [
        ("store.book.book", ("textual", "rich", "tui", "templates", "dateutil", "jinja2")),
        ("templates.starters.load", ("textual", "rich", "tui", "jinja2")),
        ("tui.cli.main", ("textual", "rich", "jinja2")),
        ("store.rules", ("textual", "rich", "tinydb", "tui", "templates", "store.book")),
        ("store.records.whole", ("textual", "rich", "tinydb", "store.rules", "store.trade", "store.book")),
        ("store.trade", ("textual", "rich", "tinydb", "store.records", "store.rules", "store.book")),
        ("store.measure", ("textual", "rich", "tinydb", "store.records", "store.trade")),
    ],
)
def test_importing_brings_in_no_more_than_it_may(module: str, never: tuple[str, ...]) -> None:
    # A package is imported with all of its modules: one of them could bring in what the others do not.
    statement = (
        f"import importlib, pkgutil, {module} as top\n"
        "found = list(pkgutil.walk_packages(getattr(top, '__path__', []), top.__name__ + '.'))\n"
        "assert found or not hasattr(top, '__path__'), 'a package without modules: nothing would be looked at'\n"
        "for each in found:\n"
        "    importlib.import_module(each.name)"
    )
    loaded = _brought_in(statement)
    assert module in loaded
    assert _under(loaded, *never) == []


def test_only_what_writes_brings_in_the_database() -> None:
    assert _under(_brought_in("import store.book.book, store.book.restore, templates.starters.load"), "tinydb") == []
    assert _under(_brought_in("import store.book.database"), "tinydb") != []


def test_nothing_heavy_that_only_tests_need_is_brought_in() -> None:
    heavy = ("scipy", "numpy", "networkx", "shapely", "pint", "icalendar", "hypothesis", "pytest")
    statement = (
        "import store.book.book, store.book.database, templates.starters.load, tui.cli.main, store.rules.core.findings"
    )
    assert _under(_brought_in(statement), *heavy) == []


IMPORT = re.compile(r"^ *(?:from ([\w.]+) import (\([^)]*\)|[^\n]*)|import ([\w., ]+))", re.MULTILINE)


COMMENT = re.compile(r" +#[^\n]*")


@cache
def _imported(path: Path) -> set[str]:
    """Every module that a file imports, also within functions and for its types."""
    imported = set()
    for source, names, modules in IMPORT.findall(COMMENT.sub("", path.read_text("utf-8"))):
        plain = [each.split(" as ")[0].strip() for each in (names or modules).strip("()").split(",")]
        imported |= {source, *(f"{source}.{each}" for each in plain)} if source else {*plain}
    return imported


JUDGING = re.compile(r"store\.rules\.\w+\.\w+_(rules|figures|checks)$")


def test_rules_are_nobodys_library() -> None:
    """Rules, figures and checks are imported by the registry alone: whoever needs a rule's value moves it to a fact."""
    program = [path for path in MODULES if not path.relative_to(ROOT).as_posix().startswith("tests/")]
    assert len(program) > 250
    named = {
        path.relative_to(ROOT).as_posix(): sorted(each for each in _imported(path) if JUDGING.match(each))
        for path in program
    }
    assert {path: names for path, names in named.items() if names} == {}


def test_no_import_runs_in_a_circle() -> None:
    """Imports within functions count: a circle there is as hard to read as any other."""
    program = [path for path in MODULES if not path.relative_to(ROOT).as_posix().startswith("tests/")]
    name_of = {path.relative_to(ROOT).with_suffix("").as_posix().replace("/", "."): path for path in program}
    graph = networkx.DiGraph(
        (name, other) for name, path in name_of.items() for other in _imported(path) & set(name_of) if other != name
    )
    assert graph.number_of_edges() > 1000
    assert [sorted(each) for each in networkx.strongly_connected_components(graph) if len(each) > 1] == []


MOST_MODULES = 24
"""In one folder: past it the folder is a hall, and wants rooms."""


def test_no_folder_is_a_hall() -> None:
    counts = Counter(path.parent.relative_to(ROOT).as_posix() for path in MODULES if path.name != "__init__.py")
    assert len(counts) > 50
    assert {folder: count for folder, count in counts.items() if count > MOST_MODULES} == {}


def test_what_is_named_as_text_is_there() -> None:
    """Views, sheets and styles are named as text, where no linter follows."""
    for _, where in VIEWS:
        module, _, name = where.partition(":")
        assert name == "" or hasattr(importlib.import_module(module), name), where
    for sheet in SHEETS.values():
        for maker in sheet.makers.values():
            module, _, name = maker.partition(":")
            assert hasattr(importlib.import_module(module), name), maker
    for style in StudbookApp.CSS_PATH:
        assert (ROOT / "tui" / "screen" / style).is_file(), style


def test_no_view_takes_a_key_of_every_view_for_something_else() -> None:
    """A key of the view comes first: it would silently take the other's place there, unless it is the same verb."""
    common = {key for each in JOB_KEYS if isinstance(each, Binding) for key in each.key.split(",")}
    assert {"a", "q", "f1", "7"} <= common
    own = [(view.title, key.key) for view in Views() for key in view.keys]
    assert len(own) > 10
    others = [(key.key, key.label) for view in Views() for key in view.keys if key.key in common]
    assert [(key, label) for key, label in others if label not in BY_LABEL or key != key_of(label)] == []
    assert [each for each, count in Counter(own).items() if count > 1] == []


def test_no_two_kinds_of_record_share_a_letter() -> None:
    """A tag would be looked for in the table of the other kind."""
    letters = Counter(kind.letter for kind in KINDS.values() if kind.letter)
    assert len(letters) > 15
    assert [letter for letter, count in letters.items() if count > 1] == []


# --- what DEVELOPERS.md says of the house ---

DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
QUOTED = re.findall(r"`([^`]+)`", DEVELOPERS)
TREE = DEVELOPERS.partition("## What is where")[2].partition("**Find the folder")[0]
BRACED = re.compile(r"\{[A-Z][A-Z_]{3,}\}")
PATH = re.compile(r"[\w.]+(/[\w.]+)+/?|(?!__init__)\w+\.(py|toml|md)")
NAME = re.compile(r"@?[A-Za-z]\w*(\.[A-Za-z]\w*)?(\(\w*\)|=)?")
GIVEN = re.compile(r"^ *(?:def |async def |class )?(\w+)(?:\(| =|: |:$)", re.MULTILINE)
"""A function, a class, or a name that something is given to."""
ANY_ROOM = "ROOM"
"""Stands for any folder in a path."""


def _named_in_the_house() -> set[str]:
    """Everything that a module defines, at its top or in a class, and the names of modules and folders."""
    names = {part for path in MODULES for part in path.relative_to(ROOT).with_suffix("").parts}
    return names.union(*(GIVEN.findall(path.read_text("utf-8")) for path in MODULES))


def test_every_path_that_developers_are_sent_to_is_there() -> None:
    """Written from the root, so that it can be opened as it stands."""
    paths = [each for each in QUOTED if PATH.fullmatch(each) and not each.startswith(".venv/")]
    assert len(paths) > 25
    assert [each for each in paths if not list(ROOT.glob(each.replace(ANY_ROOM, "*")))] == []


def test_every_folder_of_the_tree_that_developers_see_is_there() -> None:
    folders = {path.name for package in PACKAGES for path in (ROOT / package).rglob("*") if path.is_dir()}
    shown = set(re.findall(r"(\w+)/", TREE))
    assert {"store", "tui", "measure", "screen"} <= shown
    assert shown - folders - set(PACKAGES) == set()


def test_every_module_that_developers_read_of_is_there() -> None:
    run = re.findall(r"python -m ((?:store|templates|tui|tests)[\w.]*)", DEVELOPERS)
    modules = [*run, *(each for each in QUOTED if re.fullmatch(r"(store|templates|tui|tests)(\.\w+)+", each))]
    assert len(modules) > 5
    files = {path.relative_to(ROOT).with_suffix("").as_posix().removesuffix("/__init__") for path in MODULES}
    folders = {path.parent.relative_to(ROOT).as_posix() for path in MODULES}
    assert [each for each in modules if each.replace(".", "/") not in files | folders] == []
    endings = {each.removeprefix("...") for each in QUOTED if each.startswith("..._")}
    assert len(endings) == 3
    assert [each for each in endings if not any(path.stem.endswith(each) for path in MODULES)] == []


def test_every_name_that_developers_read_of_is_there() -> None:
    """`@rule`, `Book.act`, `cold(job)`, `col=`: each part is a name of a module, or of something in one."""
    names = [each for each in QUOTED if NAME.fullmatch(each) and not PATH.fullmatch(each)]
    parts = {part for each in names for part in re.sub(r"^@|\(\w*\)$|=$", "", each).split(".")}
    assert len(parts) > 30
    tools = {"mypy", "job", *SEVERITIES, *_pyproject()["optional-dependencies"]}
    assert parts - _named_in_the_house() - tools == set()


def test_every_room_of_the_rules_is_told_to_developers_and_no_other() -> None:
    table = DEVELOPERS.partition("| folder of `store/rules` |")[2].partition("\n\n")[0]
    told = [room for line in table.splitlines()[2:] for room in line.split("|")[1].strip().split(", ")]
    rooms = [path.parent.name for path in (ROOT / "store" / "rules").glob("*/__init__.py")]
    assert len(rooms) > 15
    assert sorted(told) == sorted(rooms)


def test_no_text_shows_the_name_of_a_constant_that_was_to_be_put_in() -> None:
    """A text with the name of one in braces and no f before it would be read so on screen."""
    left = []
    for path in MODULES:
        if not BRACED.search(path.read_text("utf-8")):
            continue  # quicker than to read every tree
        filled = {id(part) for one in nodes(path) if isinstance(one, ast.JoinedStr) for part in ast.walk(one)}
        left += [
            f"{path.name}:{one.lineno}"
            for one in nodes(path)
            if isinstance(one, ast.Constant) and isinstance(one.value, str) and id(one) not in filled
            and BRACED.search(one.value)
        ]  # fmt: skip
    assert left == []


def _pyproject() -> dict[str, Any]:
    project: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    return project


def test_developers_read_why_of_every_dependency_and_of_no_other() -> None:
    project = _pyproject()
    groups = [project["dependencies"], *project["optional-dependencies"].values()]
    asked = [[re.split(r"[^\w-]", each, maxsplit=1)[0].lower() for each in group] for group in groups]
    assert [name for group in asked for name, count in Counter(group).items() if count > 1] == [], "asked for twice"
    table = DEVELOPERS.partition("| library |")[2].partition("\n\n")[0]
    rows = [[cell.strip() for cell in line.split("|")[1:-1]] for line in table.splitlines()[2:]]
    told = [name for row in rows for name in row[0].split(", ")]
    assert sorted(told) == sorted({name for group in asked for name in group})
    assert [row for row in rows if len(row) != 3 or not all(row)] == []
