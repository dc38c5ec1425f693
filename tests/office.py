"""Real office software, run headless: recalculates workbooks and prints them to PDF."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import openpyxl

# Recalculate every formula on load, whatever value the file carries (0 means "always").
ALWAYS_RECALCULATE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def convert(files: Sequence[Path], kind: str, into: Path) -> list[Path]:
    """Every file opened and saved again as `kind` ("xlsx", "ods" or "pdf"), in one run of the software.

    Files are told apart by number, so two of one name don't overwrite each other.
    """
    profile, sources, out = into / "profile", into / "sources", into / "out"
    (profile / "user").mkdir(parents=True)
    sources.mkdir()
    (profile / "user" / "registrymodifications.xcu").write_text(ALWAYS_RECALCULATE, "utf-8")
    copies = [Path(shutil.copy(file, sources / f"{number}{file.suffix}")) for number, file in enumerate(files)]
    filters = {"xlsx": "xlsx:Calc MS Excel 2007 XML", "pdf": "pdf", "ods": "ods"}
    subprocess.run(
        ["soffice", f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", filters[kind],
         "--outdir", str(out), *map(str, copies)],
        check=True, capture_output=True, timeout=170,
    )
    made = [out / f"{copy.stem}.{kind}" for copy in copies]
    missing = [str(file) for file, result in zip(files, made, strict=True) if not result.exists()]
    assert not missing, f"office software did not open {missing}"
    return made


def formulas_that_differ(files: Sequence[Path], into: Path) -> tuple[int, list[str]]:
    """How many formulas the files hold, and those that recalculate to another value than the file carries.

    Numbers agree within 1e-6 of their size or 1e-9, so on rates, shares and hours as well, but never by more
    than a thousandth of a cent, so that an amount in millions must agree to the cent too.
    """
    count, differing = 0, []
    for file, fresh_file in zip(files, convert(files, "xlsx", into), strict=True):
        typed = openpyxl.load_workbook(file)
        carried = openpyxl.load_workbook(file, data_only=True)
        fresh = openpyxl.load_workbook(fresh_file, data_only=True)
        for sheet in typed.worksheets:
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.data_type != "f":
                        continue
                    count += 1
                    was = carried[sheet.title][cell.coordinate].value
                    now = fresh[sheet.title][cell.coordinate].value
                    if not _same(was, now):
                        where = f"{file.name}, {sheet.title}!{cell.coordinate}"
                        differing.append(f"{where}: {was!r} → {now!r} {cell.value}")
    return count, differing


def _same(was: object, now: object) -> bool:
    if isinstance(was, (int, float)) and isinstance(now, (int, float)):
        return abs(was - now) <= max(1e-9, min(1e-6 * max(abs(was), abs(now)), 1e-5))
    return was == now or (was in (None, "") and now in (None, ""))


def page_pictures(pdf: Path, into: Path, dpi: int = 60) -> list[Path]:
    """Every page of a PDF as a picture."""
    into.mkdir(parents=True, exist_ok=True)
    subprocess.run(["pdftoppm", "-r", str(dpi), "-png", str(pdf), str(into / pdf.stem)], check=True, timeout=120)
    return sorted(into.glob(f"{pdf.stem}*.png"))


def page_texts(pdf: Path) -> list[str]:
    """The text of every page of a PDF, laid out as printed."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, timeout=120)
    return done.stdout.decode("utf-8").split("\f")[:-1]
