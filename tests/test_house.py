"""Is the house in order: does every import run one way, is every file one room, is nothing in it that must not be there?"""

from __future__ import annotations

import ast
import functools
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PLUGIN = ROOT / "plugin" / "methodsheets"
FIGURES = ROOT / "figures" / "methodfigures"
TOOLING = ROOT / "figures" / "methodtooling"
PACKAGES = (PLUGIN, FIGURES, TOOLING)

LIBRARIES = (
    "filelock",
    "manifold3d",
    "matplotlib",
    "markdown",
    "methodfigures",
    "methodtooling",
    "mkdocs",
    "msgspec",
    "nh3",
    "numpy",
    "pint",
    "pygments",
    "shapely",
    "shtab",
    "tqdm",
    "yaml",
)
"""Heavy, host and other libraries that only the rooms whose row names them may import."""
HANDED_ON = {
    "property",
    "cached_property",
    "staticmethod",
    "classmethod",
    "cache",
    "lru_cache",
    "override",
    "dataclass",
}
"""Decorators that do not make a name known anywhere; any other hands what it decorates to somebody who calls it."""
STAGES = ("operations", "method", "sheet")
"""Rooms through whose hands the records of a method go."""


def rows_of(parent: Path) -> dict[str, frozenset[str]]:
    """The rooms right below a folder and what they may use, read from the tables of DEVELOPERS.md."""
    found = {}
    for line in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if len(cells) == 3 and cells[0].startswith("`") and (ROOT / cells[0].strip("`")).parent == parent:
            found[Path(cells[0].strip("`")).name] = frozenset(cells[2].split(", ")) - {""}
    return found


ROOMS = rows_of(PLUGIN)
DRAWS = rows_of(ROOT / "figures")
INSIDE = {(parent, room): used for parent in (FIGURES, PLUGIN / "trade") for room, used in rows_of(parent).items()}


@functools.cache
def modules(folder: Path) -> list[Path]:
    return sorted(folder.rglob("*.py"))


@functools.cache
def tree(path: Path) -> ast.Module:
    """A module as the language reads it; every test of the house looks at the same."""
    return ast.parse(path.read_text(encoding="utf-8"))


@functools.cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All of it, one after another; it is walked once."""
    return tuple(ast.walk(tree(path)))


@functools.cache
def imports(path: Path) -> frozenset[str]:
    """Every module that a file imports, relative imports made absolute."""
    package = list(path.relative_to(path.parents[len(path.relative_to(ROOT).parts) - 3]).parts[:-1])
    found: set[str] = set()
    for node in nodes(path):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            found.add(".".join([*base, *([node.module] if node.module else [])]))
    return frozenset(found)


def test_the_rooms_are_those_of_the_plan() -> None:
    there = {path.name for path in PLUGIN.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert there == set(ROOMS)


@pytest.mark.parametrize("room", sorted(ROOMS))
def test_imports_run_one_way(room: str) -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for path in modules(PLUGIN / room)
        for name in imports(path)
        if name.startswith("methodsheets.") and (other := name.split(".")[1]) != room and other not in ROOMS[room]
    ]
    assert wrong == []


@pytest.mark.parametrize(("parent", "room"), sorted(INSIDE), ids=lambda x: getattr(x, "name", x))
def test_rooms_inside_a_room_run_one_way(parent: Path, room: str) -> None:
    siblings = {path.name for path in parent.iterdir() if path.is_dir() and any(path.glob("*.py"))}
    assert siblings == {inside for above, inside in INSIDE if above == parent}
    package = ".".join(parent.relative_to(ROOT).parts[1:])
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for path in modules(parent / room)
        for name in imports(path)
        if name.startswith(f"{package}.")
        and (other := name.removeprefix(f"{package}.").split(".")[0]) in siblings - {room}
        and other not in INSIDE[parent, room]
    ]
    assert wrong == []


def test_the_table_names_only_rooms_and_libraries() -> None:
    known = {*ROOMS, *LIBRARIES}
    assert {word for used in ROOMS.values() for word in used} <= known
    for (parent, _), used in INSIDE.items():
        assert used <= {room for above, room in INSIDE if above == parent}


@pytest.mark.parametrize("library", sorted(LIBRARIES))
def test_a_library_is_named_only_where_it_belongs(library: str) -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for room in ROOMS
        for path in modules(PLUGIN / room)
        for name in imports(path)
        if (name == library or name.startswith(library + "."))
        and library not in ROOMS[path.relative_to(PLUGIN).parts[0]]
    ]
    assert wrong == []


def test_the_drawing_library_knows_nothing_of_the_handbook() -> None:
    wrong = [
        f"{p.name} imports {n}"
        for p in modules(FIGURES)
        for n in imports(p)
        if n.split(".")[0] in ("methodsheets", "mkdocs", "manifold3d", "pint")
    ]
    assert wrong == []


def test_outlines_of_tools_know_neither_who_draws_them_nor_who_checks_with_them() -> None:
    allowed = DRAWS["methodtooling"] | {"methodtooling"}
    foreign = {
        f"{p.name} imports {n}"
        for p in modules(TOOLING)
        for n in imports(p)
        if n.split(".")[0] not in allowed and n.split(".")[0] not in sys.stdlib_module_names
    }
    assert foreign == set()


def test_nobody_uses_the_global_state_of_the_plotting_library() -> None:
    wrong = [str(p) for folder in PACKAGES for p in modules(folder) if "pyplot" in "".join(imports(p))]
    assert wrong == []


def test_only_the_door_of_folders_follows_links() -> None:
    """`Path.resolve` raises for a circle of links, which anybody's folder may hold: `real` does not."""
    for file in PLUGIN.rglob("*.py"):
        if file.name != "inside.py":
            assert ".resolve(" not in file.read_text("utf-8").replace("Path(__file__).resolve()", ""), file


def test_a_file_is_one_room() -> None:
    long = {
        str(p.relative_to(ROOT)): n
        for folder in (*PACKAGES, ROOT / "tests")
        for p in modules(folder)
        if (n := len(p.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}


def test_nine_in_ten_functions_are_short() -> None:
    lengths = []
    for folder in PACKAGES:
        for path in modules(folder):
            for node in nodes(path):
                if isinstance(node, ast.FunctionDef):
                    body = node.body[1:] if ast.get_docstring(node) else node.body
                    lengths.append((body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0)
    assert sum(length <= 30 for length in lengths) / len(lengths) >= 0.9


def test_every_module_says_which_question_it_answers() -> None:
    silent = [
        str(p.relative_to(ROOT)) for folder in PACKAGES for p in modules(folder) if not ast.get_docstring(tree(p))
    ]
    assert silent == []


def _last(node: ast.expr) -> str:
    """The last name of a decorator or a base: `cache` of `functools.cache(…)`."""
    node = node.func if isinstance(node, ast.Call) else node
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def _names() -> tuple[dict[str, str], set[str]]:
    """(name → where it is defined, every name that is used) of both packages."""
    every = [path for folder in PACKAGES for path in modules(folder)]
    ours = {one.name for path in every for one in nodes(path) if isinstance(one, ast.ClassDef)}
    defined: dict[str, str] = {}
    used: set[str] = set()
    for path in every:
        asked_by_others = set()  # methods that a foreign class of a library calls
        for node in nodes(path):
            if isinstance(node, ast.ClassDef) and any(_last(base) not in ours for base in node.bases):
                asked_by_others |= {id(one) for one in node.body}
            if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
                handed = {_last(one) for one in node.decorator_list} - HANDED_ON
                if not handed and id(node) not in asked_by_others and not node.name.startswith("__"):
                    defined[node.name] = f"{path.relative_to(ROOT)}:{node.lineno}"
            elif isinstance(node, ast.Name):
                used.add(node.id)
            elif isinstance(node, ast.Attribute):
                used.add(node.attr)
            elif isinstance(node, ast.alias) and path.name == "__init__.py":
                used.add(node.name)  # what a room hands out
            elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.isidentifier():
                used.add(node.value)  # looked up by its name
    return defined, used


def test_every_function_and_class_is_used() -> None:
    """Whether something calls for it outside of tests; what only a test calls belongs into the tests."""
    defined, used = _names()
    plugins = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    assert {name: place for name, place in defined.items() if name not in used and f":{name}" not in plugins} == {}


def _records() -> Iterator[tuple[str, ast.ClassDef, bool]]:
    for path in (path for room in STAGES for path in modules(PLUGIN / room)):
        for node in nodes(path):
            if isinstance(node, ast.ClassDef):
                for one in (one for one in node.decorator_list if _last(one) == "dataclass"):
                    said = {key.arg for key in one.keywords} if isinstance(one, ast.Call) else set()
                    yield f"{path.relative_to(ROOT)}: {node.name}", node, "frozen" in said


def test_a_record_is_made_once() -> None:
    """Records of the stages are frozen, but those that change themselves and nobody else does."""
    open_ones = {where: node for where, node, frozen in _records() if not frozen}
    idle = [where for where, node in open_ones.items() if not any(map(_is_of_self, ast.walk(node)))]
    assert idle == [], "frozen=True: none of its own methods changes it"


def _is_of_self(node: ast.AST) -> bool:
    """Whether it sets an attribute, or an entry of one, of `self`."""
    targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AugAssign) else []
    return any(ast.unparse(one).startswith("self.") for one in targets)


def test_the_values_of_a_record_have_their_names() -> None:
    """Whoever makes a record of more than seven values says which is which: two of one type are changed unnoticed."""
    every = [path for folder in PACKAGES for path in modules(folder)]
    records = {
        node.name
        for path in every
        for node in tree(path).body
        if isinstance(node, ast.ClassDef) and "dataclass" in {_last(one) for one in node.decorator_list}
    }
    bare = [
        f"{path.relative_to(ROOT)}:{node.lineno}: {node.func.id}"
        for path in every
        for node in nodes(path)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and len(node.args) > 7
        if node.func.id in records
    ]
    assert bare == []


MOST = 4
"""Values of one type that a call may hand over by their place."""


def _by_place(call: ast.Call, function: ast.FunctionDef) -> int:
    """How many values of one type a call hands over by their place, at most."""
    kinds = [ast.unparse(one.annotation) if one.annotation else "" for one in function.args.args]
    kinds = kinds[1:] if function.args.args[:1] and function.args.args[0].arg in ("self", "cls") else kinds
    there = kinds[: len(call.args)]
    return max(map(there.count, there), default=0)


def test_values_of_one_type_have_their_names() -> None:
    """Of more than four values of one type a call says which is which; a name that several functions have is left out."""
    every = [path for folder in PACKAGES for path in modules(folder)]
    known: dict[str, list[ast.AST]] = {}
    for node in (node for path in every for node in nodes(path)):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            known.setdefault(node.name, []).append(node)
    bare = [
        f"{path.relative_to(ROOT)}:{node.lineno}: {ast.unparse(node.func)}"
        for path in every
        for node in nodes(path)
        if isinstance(node, ast.Call) and len(node.args) > MOST
        for function in [known.get(getattr(node.func, "id", getattr(node.func, "attr", "")), [])]
        if len(function) == 1 and isinstance(function[0], ast.FunctionDef) and _by_place(node, function[0]) > MOST
    ]
    assert bare == []


@pytest.mark.parametrize(
    "core", ["methodsheets.pages.site", "methodsheets.handbook.model", "methodsheets.sheet.records"]
)
def test_a_handbook_from_the_store_loads_no_heavy_library(core: str) -> None:
    heavy = ["pint", "numpy", "shapely", "matplotlib", "manifold3d", "mkdocs", "markdown"]
    code = f"import sys, {core}; print([m for m in {heavy!r} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
