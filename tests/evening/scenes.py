"""The sample books as the evening tests use them: where they are, and what comes of them."""

from __future__ import annotations

import contextlib
import io
from collections.abc import Sequence
from datetime import date
from functools import cache
from pathlib import Path

from quoting.batch import work_out
from quoting.cli import main

TESTS = Path(__file__).parent.parent
ROOT = TESTS.parent
SAMPLES = ROOT / "sample_workbooks"
CASES = TESTS / "cases" / "samples"
RUN_DATE = date(2031, 5, 14)
GOOD = ("dollars", "euros", "forms")
NAMES = (*GOOD, "faulty")


def sample_books(name: str) -> list[Path]:
    """The workbooks of a sample, by name."""
    return sorted((SAMPLES / name).glob("*.xlsx"))


@cache
def report_of(name: str):
    """The evening of a sample as values."""
    return work_out([SAMPLES / name], RUN_DATE)


def jobs_of(name: str) -> dict[str, object]:
    """Quoted jobs of a sample: job code → its sheet."""
    return {result.job: result.sheet for result in report_of(name).results if result.sheet is not None}


def told(arguments: Sequence[object]) -> tuple[int, str, str]:
    """One command run in this process: exit code, standard output, standard error."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as stop:
            code = stop.code if isinstance(stop.code, int) else 1
    return code, out.getvalue(), err.getvalue()
