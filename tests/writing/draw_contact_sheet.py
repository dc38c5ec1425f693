"""Draws every piece of the sample workbooks on one sheet, to be looked at and judged.

    python tests/writing/draw_contact_sheet.py contact-sheet.png
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path.insert(0, str(ROOT))

from quoting.batch import work_out  # noqa: E402  the path comes first
from quoting.writing.contact_sheet import contact_sheet  # noqa: E402
from quoting.writing.pictures.elevation import QUOTE_HEIGHT  # noqa: E402
from quoting.writing.pictures.job_pictures import job_pictures  # noqa: E402

RUN_DATE = date(2031, 5, 14)


def sample_pictures(folders=("dollars", "euros")):
    """(form and title, PNG file) of every piece of the good sample books that can be drawn, form by form."""
    found = {}
    for folder in folders:
        for sheet in work_out([ROOT / "sample_workbooks" / folder], RUN_DATE).sheets:
            pictures = job_pictures(sheet).for_quote(QUOTE_HEIGHT)
            for piece in sheet.pieces:
                if piece.label in pictures:
                    found[f"{piece.form}: {piece.title} ({sheet.job} {piece.label})"] = pictures[piece.label].png
    return sorted(found.items())


if __name__ == "__main__":
    Path(sys.argv[1]).write_bytes(contact_sheet(sample_pictures()))
