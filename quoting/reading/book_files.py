"""Which files of a folder are books."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Outcome, Problem

ENDINGS = (".xlsx", ".xlsm", ".ods")


def find_books(sources: Sequence[Path]) -> Outcome[tuple[Path, ...]]:
    """The workbooks named by `sources`: each file as it is, each folder's own workbooks by name.

    Lock files of office software ("~$…", ".~lock…"), hidden files and sub-folders are
    passed over. Two books of one file name can't be told apart in messages, so the
    second is refused; a source that isn't there and a folder without books are too.
    """
    problems: list[Problem] = []
    found: dict[str, Path] = {}
    for source in sources:
        if source.is_dir():
            paths = sorted(p for p in source.iterdir() if _is_book(p))
            if not paths:
                problems.append(problem("P120", Place(workbook=str(source))))
        elif source.exists():
            paths = [source]
        else:
            paths = []
            problems.append(problem("P121", Place(workbook=str(source))))
        for path in paths:
            first = found.setdefault(path.name.casefold(), path)
            if first.resolve() != path.resolve():
                problems.append(problem("P122", Place(workbook=str(path)), other=first))
    return Outcome(value=tuple(found.values()), problems=tuple(problems))


def _is_book(path: Path) -> bool:
    return path.suffix.lower() in ENDINGS and not path.name.startswith(("~$", ".")) and not path.is_dir()
