"""Workbooks put together part by part, for what no library writes on purpose."""

from __future__ import annotations

import zipfile
from pathlib import Path

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"
STRICT_LINKS = "http://purl.oclc.org/ooxml/officeDocument/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Override PartName="/xl/workbook.xml" '
    'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    "</Types>"
)


def xlsx_parts(
    sheets: dict[str, str], *, strict: bool = False, styles: str = "", texts: str = "", book: str = ""
) -> dict[str, str]:
    """Parts of a workbook: sheet name → XML inside its <worksheet>. `book` goes before the list of sheets."""
    main, links = (STRICT, STRICT_LINKS) if strict else (MAIN, LINKS)
    listed = "".join(f'<sheet name="{n}" sheetId="{i}" r:id="rId{i}"/>' for i, n in enumerate(sheets, 1))
    relations = "".join(
        f'<Relationship Id="rId{i}" Type="{links}/worksheet" Target="worksheets/sheet{i}.xml"/>'
        for i in range(1, len(sheets) + 1)
    )
    relations += f'<Relationship Id="rIdS" Type="{links}/styles" Target="/xl/styles.xml"/>' if styles else ""
    relations += f'<Relationship Id="rIdT" Type="{links}/sharedStrings" Target="sharedStrings.xml"/>' if texts else ""
    parts = {
        "[Content_Types].xml": TYPES,
        "_rels/.rels": (
            f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r" Type="{links}/officeDocument"'
            ' Target="xl/workbook.xml"/></Relationships>'
        ),
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{links}">{book}<sheets>{listed}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}">{relations}</Relationships>',
    }
    for i, inside in enumerate(sheets.values(), 1):
        parts[f"xl/worksheets/sheet{i}.xml"] = f'<worksheet xmlns="{main}">{inside}</worksheet>'
    if styles:
        parts["xl/styles.xml"] = f'<styleSheet xmlns="{main}">{styles}</styleSheet>'
    if texts:
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{main}">{texts}</sst>'
    return parts


def write_parts(path: Path, parts: dict[str, str | bytes], *, packing: int = zipfile.ZIP_DEFLATED) -> Path:
    """A zip file of the parts."""
    with zipfile.ZipFile(path, "w", packing) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return path


def cells(inside: str) -> str:
    """A sheet with these <row> elements."""
    return f"<sheetData>{inside}</sheetData>"
