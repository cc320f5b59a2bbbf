"""The habits of this project that a machine can check."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LAYERS = ("sizing", "replies", "bot")
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "bot", "replies", "sizing", "tests"}
OUTSIDE = {
    "asyncio", "http", "os", "random", "secrets", "shutil", "signal", "smtplib", "imaplib", "socket", "sqlite3",
    "sqlalchemy", "subprocess", "tempfile", "threading", "time", "urllib", "uuid", "alembic", "click", "rich",
}  # fmt: skip
# derive.py is run by hand, by whoever changes the published tables that the body model comes from.
TOUCHES_ITS_OWN_DATA = {"sizing/tables.py", "sizing/derive.py", "replies/words.py", "replies/writing/templating.py"}


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def modules(*packages: str) -> list[Path]:
    found = [path for package in packages for path in sorted((ROOT / package).rglob("*.py"))]
    assert found
    return found


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def imports(path: Path, *, on_load: bool = False) -> Iterator[str]:
    """Every module that a file imports; with on_load only those that it imports when it is itself imported."""
    todo: list[ast.AST] = [tree(path)]
    while todo:
        node = todo.pop()
        match node:
            case ast.Import():
                yield from (alias.name for alias in node.names)
            case ast.ImportFrom(module=str(module), level=0):
                yield module
                yield from (f"{module}.{alias.name}" for alias in node.names)
            case ast.ImportFrom():
                yield "." * node.level
            case ast.FunctionDef() | ast.AsyncFunctionDef() if on_load:
                continue
            case ast.If(test=ast.Name(id="TYPE_CHECKING")) if on_load:
                todo += node.orelse
                continue
        todo += ast.iter_child_nodes(node)


def dotted(path: Path) -> str:
    return name(path).removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def named(node: ast.AST) -> str:
    """The dotted name of an expression such as `datetime.now`, or "" where it has none."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        inner = named(node.value)
        return f"{inner}.{node.attr}" if inner else node.attr
    return ""


def calls(path: Path) -> Iterator[str]:
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call):
            yield named(node.func)


def test_the_top_level_holds_what_was_agreed() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True).stdout.split("\n")
    entries = {line.split("/")[0] for line in listed if line} or {path.name for path in ROOT.iterdir()}

    assert {entry for entry in entries if not entry.startswith(".") and not entry.endswith(".egg-info")} <= TOP


@pytest.mark.parametrize(("package", "not_from"), [("sizing", ("replies", "bot")), ("replies", ("bot",))])
def test_imports_point_from_bot_to_replies_to_sizing(package: str, not_from: tuple[str, ...]) -> None:
    wrong = [
        (name(path), module)
        for path in modules(package)
        for module in imports(path)
        if module.split(".")[0] in (*not_from, "tests")
    ]

    assert wrong == []


def test_imports_are_absolute() -> None:
    assert [name(path) for path in modules(*LAYERS) if any(module.startswith(".") for module in imports(path))] == []


def test_no_modules_import_one_another_in_a_ring() -> None:
    own = {dotted(path): path for path in modules(*LAYERS)}
    needs = {module: {other for other in imports(path, on_load=True) if other in own} for module, path in own.items()}
    while leaves := [module for module, needed in needs.items() if not needed - {module} & needs.keys()]:
        for leaf in leaves:
            del needs[leaf]

    assert sorted(needs) == []


@pytest.mark.parametrize("path", modules("sizing", "replies"), ids=name)
def test_the_lower_layers_touch_nothing_outside(path: Path) -> None:
    touched = {module for module in imports(path) if module.split(".")[0] in OUTSIDE}
    clocks = {call for call in calls(path) if call.split(".")[-1] in ("now", "utcnow", "today")}
    files = {call for call in calls(path) if call.split(".")[-1] in ("open", "read_text", "read_bytes", "write_text")}

    assert touched | clocks == set()
    assert files == set() or name(path) in TOUCHES_ITS_OWN_DATA


def test_sql_stands_in_the_store_alone() -> None:
    wrong = {
        name(path)
        for path in modules("bot")
        if not name(path).startswith("bot/store/")
        and any(module.split(".")[0] in ("sqlalchemy", "sqlite3", "alembic") for module in imports(path))
    }

    assert wrong == set()


def test_the_environment_is_read_by_settings_alone() -> None:
    reads = {
        name(path)
        for path in modules(*LAYERS)
        for node in ast.walk(tree(path))
        if named(node) in ("os.environ", "os.getenv", "environ", "getenv")
    }

    assert reads <= {"bot/settings.py"}


def test_units_are_converted_in_one_place_alone() -> None:
    factors = re.compile(r"(?<![\d.])(2\.54|0\.393\d+|0\.45359?\d*|2\.2046\d*|0\.3048|6\.35029\d*)(?!\d)")
    code = {name(path): ast.unparse(_without_docstrings(path)) for path in modules(*LAYERS)}

    assert {where for where, text in code.items() if factors.search(text)} <= {"sizing/units.py"}


def _without_docstrings(path: Path) -> ast.Module:
    bare = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(bare):
        body = getattr(node, "body", None)
        if isinstance(body, list):
            node.body = [  # type: ignore[attr-defined]
                entry for entry in body if not (isinstance(entry, ast.Expr) and isinstance(entry.value, ast.Constant))
            ] or [ast.Pass()]
    return bare


@pytest.mark.parametrize("path", modules(*LAYERS), ids=name)
def test_every_module_says_in_its_first_line_what_it_is(path: Path) -> None:
    first = (ast.get_docstring(tree(path)) or "").split("\n")[0]

    assert len(first.split()) >= 3


def test_every_table_and_word_list_lies_beside_the_module_that_reads_it() -> None:
    data = [path for layer in LAYERS for path in (ROOT / layer).rglob("*.toml")]
    assert data

    assert [name(path) for path in data if not path.with_suffix(".py").exists()] == []


def test_every_folder_of_tests_is_a_package() -> None:
    folders = {path.parent for path in (ROOT / "tests").rglob("test_*.py")}

    assert [name(folder) for folder in sorted(folders) if not (folder / "__init__.py").exists()] == []


def test_only_departures_hand_a_text_to_a_channel() -> None:
    senders = {name(path) for path in modules("bot") if any(call.endswith(".deliver") for call in calls(path))}

    assert senders <= {"bot/departures.py"}


def test_help_starts_without_anything_heavy() -> None:
    heavy = ("alembic", "discord", "jinja2", "numpy", "pint", "pydantic", "rich", "sqlalchemy", "telegram")
    code = f"import bot.cli, sys; print([name for name in {heavy} if name in sys.modules])"

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
