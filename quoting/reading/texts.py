"""The text of a cell: as its owner sees it, and tidied for reading."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from quoting.domain.cells import Cell

_ESCAPE = re.compile(r"_x([0-9A-Fa-f]{4})_")
_CONTROL = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff\ud800-\udfff\ufffe\uffff]"
)
_FORMAT = re.compile(
    r'"(?P<quoted>[^"]*)"|\\(?P<escaped>.)|\[\$(?P<sign>[^\]-]*)[^\]]*\]|\[[^\]]*\]|_.|\*.'
    r"|(?P<digits>General|[0#?][0#?.,/ E+]*)|(?P<bare>.)"
)


def without_escapes(text: str) -> str:
    """A text of an .xlsx part, its _x000D_ escapes turned into the signs meant (ECMA-376 part 1, 22.9.2.19)."""
    return _ESCAPE.sub(lambda found: chr(int(found[1], 16)), text) if "_x" in text else text


def without_controls(text: str) -> str:
    """A text less its control signs, invisible marks and halves of signs; line ends become new lines."""
    return _CONTROL.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def folded(text: str) -> str:
    """One line: stripped, each run of white space (no-break spaces too) one space, control signs dropped."""
    return " ".join(without_controls(text).split())


def folded_lines(text: str) -> str:
    """Lines kept, each folded as `folded` does; blank lines at the ends dropped, runs of them made one."""
    lines = "\n".join(folded(line) for line in without_controls(text).split("\n"))
    return re.sub(r"\n{3,}", "\n\n", lines).strip()


def is_blank(cell: Cell) -> bool:
    """True for a cell with nothing in it, or nothing but white space."""
    if cell.is_uncalculated or cell.is_error:
        return False
    return cell.value is None or (isinstance(cell.value, str) and not folded(cell.value))


def plain_number(number: int | Decimal) -> str:
    """A number without needless noughts and never in powers of ten ("8.5", "1200")."""
    if isinstance(number, int):
        return str(number)
    if not number.is_finite() or abs(number.adjusted()) > 40:
        return str(number)
    text = f"{number if number else abs(number):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What a number format puts round a number: "£" before it, " m" or "%" behind it; `zeros` is its least width."""

    before: str = ""
    behind: str = ""
    is_percent: bool = False
    zeros: int = 0


def frame_of(number_format: str) -> Frame:
    """What a number format shows besides the number, read from its first section (ECMA-376 part 1, 18.8.31).

    >>> frame_of('0.0" m"').behind
    ' m'
    """
    if number_format in ("", "General", "@"):
        return Frame()
    before, behind, digits = "", "", ""
    for found in _FORMAT.finditer(number_format[:200]):
        if found["bare"] == ";":
            break
        if found["digits"] is not None:
            digits += found["digits"].strip()
            behind += " " * found["digits"].endswith(" ")
            continue
        literal = found["quoted"] or found["escaped"] or found["sign"] or found["bare"] or ""
        before, behind = (before, behind + literal) if digits else (before + literal, behind)
    zeros = len(digits) if digits and not digits.strip("0") else 0
    return Frame(before=before, behind=behind, is_percent="%" in before + behind, zeros=zeros)


def seen_text(cell: Cell) -> str:
    """A cell's own text, about as office software shows it: 8.5, 12%, £40, 2031-05-14, 14:30, TRUE."""
    value = cell.value
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, (int, Decimal)):
        return _seen_number(value, frame_of(cell.number_format))
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time(0) else value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.isoformat("seconds" if value.second else "minutes")
    return folded(value) if isinstance(value, str) else ""


def _seen_number(number: int | Decimal, frame: Frame) -> str:
    if isinstance(number, Decimal) and not number.is_finite():
        return str(number)
    if frame.is_percent:
        return f"{plain_number(percents(number))}%"
    text = plain_number(number)
    if frame.zeros and text.isdecimal():
        text = text.zfill(min(frame.zeros, 30))
    return folded(f"{frame.before}{text}{frame.behind}")


def percents(fraction: int | Decimal) -> Decimal:
    """A fraction in hundredths, exactly."""
    return Decimal(fraction).scaleb(2)
