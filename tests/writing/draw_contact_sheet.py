"""Draws the example of every form, or every piece of the sample workbooks, on one sheet, to be looked at and judged.

    python tests/writing/draw_contact_sheet.py forms.png
    python tests/writing/draw_contact_sheet.py samples.png samples
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from form_examples import planned_examples

from quoting.batch import work_out
from quoting.writing.contact_sheet import contact_sheet
from quoting.writing.pictures.elevation import QUOTE_HEIGHT, draw_piece, has_picture
from quoting.writing.pictures.job_pictures import job_pictures

RUN_DATE = date(2031, 5, 14)


def form_pictures():
    """(form, PNG file) of the example of every form that can be drawn."""
    plans, looks = planned_examples()
    return [(name, draw_piece(plan, looks, unit="in")) for name, plan in sorted(plans.items()) if has_picture(plan)]


def sample_pictures():
    """(form and title, PNG file) of every piece of the good sample books that can be drawn, form by form."""
    found = {}
    for folder in ("dollars", "euros", "forms"):
        for sheet in work_out([ROOT / "sample_workbooks" / folder], RUN_DATE).sheets:
            pictures = job_pictures(sheet).for_quote(QUOTE_HEIGHT)
            for piece in sheet.pieces:
                if piece.label in pictures:
                    found[f"{piece.form}: {piece.title} ({sheet.job} {piece.label})"] = pictures[piece.label].png
    return sorted(found.items())


if __name__ == "__main__":
    drawn = sample_pictures() if sys.argv[2:] == ["samples"] else form_pictures()
    Path(sys.argv[1]).write_bytes(contact_sheet(drawn))
