"""Rebuilds what is made by code and checked in: blank books, sample workbooks, the docs' tables.

    python tests/rebuild.py
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from quoting.batch import make_blank_book
from quoting.checking.reference import reference_markdown
from quoting.domain.codes import CODES

BLANK_BOOKS = {"blank book, feet and inches.xlsx": False, "blank book, metric.xlsx": True}
DEVELOPERS = ROOT / "DEVELOPERS.md"


def docs_with_tables(text: str) -> str:
    """DEVELOPERS.md with its made tables fresh."""
    for name, table in (("sheets", reference_markdown()), ("codes", codes_markdown())):
        start, end = f"<!-- {name}: made by tests/rebuild.py -->\n", f"<!-- end of {name} -->"
        assert start in text, start
        text = re.sub(re.escape(start) + r".*?" + re.escape(end), lambda _: start + table + end, text, flags=re.S)  # noqa: B023
    return text


def codes_markdown() -> str:
    """Every problem code with its level and words."""
    rows = [f"| {code} | {entry.level.value} | {entry.why}; {entry.fix} |" for code, entry in sorted(CODES.items())]
    return "\n".join(["| code | level | words |", "|---|---|---|", *rows, ""])


def rebuild() -> None:
    """Write everything anew."""
    for name, is_metric in BLANK_BOOKS.items():
        path = ROOT / "templates" / name
        path.unlink(missing_ok=True)
        make_blank_book(path, is_metric=is_metric)
    DEVELOPERS.write_text(docs_with_tables(DEVELOPERS.read_text("utf-8")), "utf-8")
    from samples.make_samples import write_samples

    write_samples(ROOT / "sample_workbooks")


if __name__ == "__main__":
    rebuild()
