"""Makes `quoting/geometry/letter_outlines.py` from the open typeface that the pictures are lettered in.

    python tests/geometry/make_letter_outlines.py

Needs fonttools (in the "test" extra). Run it again only where a sign is to be added or
the typeface's package changes; a test compares the checked-in outlines with the
typeface as another library paints it.
"""

from __future__ import annotations

import sys
import textwrap
from importlib import resources
from io import BytesIO
from pathlib import Path

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

ROOT = Path(__file__).parent.parent.parent
TARGET = ROOT / "quoting" / "geometry" / "letter_outlines.py"
SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789&!?+-#.'"
CHORDS = 64
"""Straight pieces per curve before those that bend by less than `LEEWAY` are left out again."""
LEEWAY = 1.5
"""In thousandths of the height of a capital: a millimetre in a letter of 70 cm."""

HEAD = '''"""Outlines of capitals, figures and a few signs. Made by tests/geometry/make_letter_outlines.py: don't edit.

Measured from the Bold of the typeface Hanken Grotesk (SIL Open Font License 1.1; its
notice and licence come with the package font-hanken-grotesk). Curves are cut into
straight pieces. Numbers are thousandths of the height of a capital: x from the left of
the sign's room, y from the line it stands on.
"""

from __future__ import annotations

OUTLINES: dict[str, tuple[int, str]] = {
'''


def flattened(glyph, glyphs) -> list[list[tuple[float, float]]]:
    """Contours of a glyph, in the typeface's own units."""
    pen = DecomposingRecordingPen(glyphs)
    glyph.draw(pen)
    contours, here = [], (0.0, 0.0)
    for step, points in pen.value:
        if step == "moveTo":
            contours.append([points[0]])
        elif step == "lineTo":
            contours[-1].append(points[0])
        elif step == "curveTo":
            contours[-1] += [cubic(here, *points, number / CHORDS) for number in range(1, CHORDS + 1)]
        elif step not in ("closePath", "endPath"):
            raise ValueError(step)
        here = points[-1] if points else here
    return contours


def cubic(a, b, c, d, t):
    s = 1 - t
    return tuple(s**3 * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t**3 * d[k] for k in (0, 1))


def thinned(points):
    """The points of a line without those that stand nearer to it than the leeway (Ramer–Douglas–Peucker)."""
    if len(points) < 3:
        return points
    (x1, y1), (x2, y2) = points[0], points[-1]
    long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5

    def off(point):
        x, y = point
        if not long:
            return ((x - x1) ** 2 + (y - y1) ** 2) ** 0.5
        return abs((x2 - x1) * (y1 - y) - (x1 - x) * (y2 - y1)) / long

    far = max(range(1, len(points) - 1), key=lambda number: off(points[number]))
    if off(points[far]) <= LEEWAY:
        return [points[0], points[-1]]
    return thinned(points[: far + 1])[:-1] + thinned(points[far:])


def outlines() -> dict[str, tuple[int, str]]:
    """Sign → (room it takes, contours: "x y x y … | x y …")."""
    file = resources.files("font_hanken_grotesk") / "files" / "HankenGrotesk-Bold.otf"
    font = TTFont(BytesIO(file.read_bytes()))
    glyphs, names, cap = font.getGlyphSet(), font.getBestCmap(), font["OS/2"].sCapHeight
    found = {}
    for sign in SIGNS:
        glyph = glyphs[names[ord(sign)]]
        contours = []
        for contour in flattened(glyph, glyphs):
            scaled = [(x / cap * 1000, y / cap * 1000) for x, y in contour]
            kept = [(round(x), round(y)) for x, y in thinned([*scaled, scaled[0]])[:-1]]
            contours.append(" ".join(f"{x} {y}" for x, y in kept))
        found[sign] = (round(glyph.width / cap * 1000), " | ".join(contours))
    return found


def written() -> str:
    """The whole module."""
    lines = []
    for sign, (room, text) in outlines().items():
        key = '"\'"' if sign == "'" else f'"{sign}"'
        lines.append(f"    {key}: ({room}, (")
        rows = textwrap.wrap(text, 108, drop_whitespace=False)
        lines += [f'        "{row}"' for row in rows]
        lines.append("    )),")
    return HEAD + "\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    TARGET.write_text(written(), "utf-8")
    sys.stdout.write(f"{TARGET.relative_to(ROOT)}: {len(SIGNS)} signs\n")
