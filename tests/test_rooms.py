"""Imports point down: read from the source with `ast`, so that direction can't rot."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "quoting"
MIDDLE = ("reading", "checking", "costing", "site", "writing")
BELOW = {
    "domain": set(),
    "geometry": {"domain"},
    "forms": {"domain", "geometry"},
    **{room: {"domain", "geometry", "forms"} for room in MIDDLE},
    "register": {"domain"},
    "batch": {"domain", "geometry", "forms", *MIDDLE, "register"},
    "cli": {"domain", "batch", "quoting"},
}
PURE = ("domain", "geometry", "forms", "costing", "site")


def rooms_imported(path: Path) -> set[str]:
    """Names of the rooms of `quoting` that a module imports."""
    rooms = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names = [node.module or ""]
            if node.module == "quoting":
                names = [f"quoting.{alias.name}" for alias in node.names]
        rooms |= {name.split(".")[1] for name in names if name.startswith("quoting.")}
    return rooms


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def test_imports_point_down():
    upward = []
    for path in sorted(PACKAGE.rglob("*.py")):
        room = room_of(path)
        if room == "__init__":
            continue
        allowed = BELOW[room] | {room}
        upward += [f"{path.relative_to(PACKAGE)} → {other}" for other in rooms_imported(path) - allowed]
    assert not upward


def test_pure_rooms_open_no_file_read_no_clock_and_print_nothing():
    guilty = []
    for room in PURE:
        for path in sorted((PACKAGE / room).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if not isinstance(node, ast.Call):
                    continue
                called = ast.unparse(node.func)
                if called in {"open", "print", "input"} or called.endswith(
                    (".now", ".today", ".time", ".read_text", ".write_text", ".read_bytes", ".write_bytes", ".open")
                ):
                    guilty.append(f"{path.relative_to(PACKAGE)}:{node.lineno} {called}")
    assert not guilty


def test_every_folder_says_what_is_in_it():
    for folder in [PACKAGE, *sorted(p for p in PACKAGE.rglob("*") if p.is_dir() and any(p.glob("*.py")))]:
        docstring = ast.get_docstring(ast.parse((folder / "__init__.py").read_text("utf-8")))
        assert docstring, folder
