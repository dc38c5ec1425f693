"""The owner's wording, filled in; and text where a file format has rules of its own about it."""

from __future__ import annotations

from collections.abc import Mapping

from quoting.writing.printable_text import printable

_FOOT_CODES = '&"Arial,Regular"&8&K5F6B6D'


class Phrases:
    """The phrases of a quote. KeyError for one that the wording lacks: that is our mistake."""

    def __init__(self, wording: Mapping[str, str]) -> None:
        self._wording = wording

    def text(self, key: str, **facts: str) -> str:
        """Give a phrase, its names in braces replaced by `facts`; other braces stay as they are."""
        text = self._wording[key]
        for name, fact in facts.items():
            text = text.replace("{" + name + "}", fact)
        return text

    def around(self, key: str, name: str) -> tuple[str, str]:
        """Give what stands before and after a name in braces: "on {amount}" gives ("on ", "")."""
        before, _, after = self.text(key).partition("{" + name + "}")
        return before, after


def foot_text(left: str, phrases: Phrases) -> str:
    """Give the foot of the client's pages, in the owner's words for "Page 1 of 2"."""
    return page_foot(left, phrases.text("page"))


def page_foot(left: str, right: str = "Page {page} of {pages}") -> str:
    """Give a page foot in the file format's codes, at most 255 characters; `right` names page and pages in braces."""
    numbers = _cut(_foot_safe(right), 80).replace("{page}", "&P").replace("{pages}", "&N")
    codes = f"&L{_FOOT_CODES}{{}}&R{_FOOT_CODES}{numbers}"
    room = 255 - len(codes.replace("{}", "").encode("utf-16-le")) // 2
    return codes.replace("{}", _cut(_foot_safe(left), room), 1)


def page_head(text: str) -> str:
    """Give a short text over the middle of every page, in the file format's codes."""
    return f'&C&"Arial,Bold"&9&K5F6B6D{_foot_safe(text)}'


def _foot_safe(text: str) -> str:
    return " ".join(printable(text).replace("&", "&&").split())


def _cut(text: str, most: int) -> str:
    # The limit counts as the file format does: letters beyond the first 65,536 are two.
    cut = text.encode("utf-16-le")[: 2 * max(most, 0)].decode("utf-16-le", "ignore")
    # A code begins with "&": an odd one left at the end by the cut would swallow what follows.
    return cut[:-1] if (len(cut) - len(cut.rstrip("&"))) % 2 else cut


def sheet_name(wanted: str, otherwise: str) -> str:
    """Give a name that a sheet may have: at most 31 characters, no brackets, colons, slashes, no quote at its ends."""
    clean = "".join(" " if c in "[]:*?/\\" else c for c in printable(wanted))
    clean = " ".join(clean.split())[:31].strip(" '")
    # "History" is a name that one common office software keeps for itself.
    return clean if clean and clean.casefold() != "history" else otherwise
