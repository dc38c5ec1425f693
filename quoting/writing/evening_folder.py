"""The dated folder of one run: it appears whole or not at all, and replaces nothing."""

from __future__ import annotations

import filecmp
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path


@dataclass(slots=True, kw_only=True)
class EveningFolder:
    """The folder being written (`work`) and, once it is whole, the one it became (`path`).

    `is_unchanged` is true where an earlier folder of the same date held the very same
    files: then `path` is that one, and nothing was added.
    """

    work: Path
    path: Path | None = field(default=None)
    is_unchanged: bool = field(default=False)


@contextmanager
def evening_folder(into: Path, run_date: date) -> Iterator[EveningFolder]:
    """Open a folder to write one evening's files into; it is put in place when the block ends well.

    Written aside as a hidden folder of `into`, then renamed to "2031-05-14", or to
    "2031-05-14 (2)" and so on where earlier runs of the date wrote other files: what
    was issued is never overwritten. OSError where `into` can't be made or written.
    """
    into.mkdir(parents=True, exist_ok=True)
    work = Path(tempfile.mkdtemp(prefix=f".{run_date.isoformat()}-", suffix=".part", dir=into))
    folder = EveningFolder(work=work)
    try:
        yield folder
        _put_in_place(folder, into, run_date)
    finally:
        if folder.path is None or folder.is_unchanged:
            shutil.rmtree(work, ignore_errors=True)


def _put_in_place(folder: EveningFolder, into: Path, run_date: date) -> None:
    number = 1
    latest: Path | None = None
    while (target := into / _name(run_date, number)).exists():
        latest, number = target, number + 1
    if latest is not None and _same_files(folder.work, latest):
        folder.path, folder.is_unchanged = latest, True
        return
    # mkdtemp makes folders only their owner can open; the shop's others need to read it too.
    folder.work.chmod(0o777 & ~_umask())
    folder.work.rename(target)
    folder.path = target


def _name(run_date: date, number: int) -> str:
    return run_date.isoformat() if number == 1 else f"{run_date.isoformat()} ({number})"


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _same_files(one: Path, other: Path) -> bool:
    ours = sorted(p.relative_to(one) for p in one.rglob("*") if p.is_file())
    theirs = sorted(p.relative_to(other) for p in other.rglob("*") if p.is_file())
    return ours == theirs and all(filecmp.cmp(one / p, other / p, shallow=False) for p in ours)
