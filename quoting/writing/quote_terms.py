"""What follows the money on the client's quote: notes, cautions, terms, the place to sign."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.domain.quotes import Quote
from quoting.writing.inks import ACCENT, INK, QUIET
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases
from quoting.writing.text_heights import row_height, with_line_ends

_LAST = 4
_SIZE = 8


def write_terms(page: Page, quote: Quote, phrases: Phrases) -> None:
    """Write the notes, cautions and terms; what is empty is left out with its heading."""
    page.gap(4)
    _write_paragraphs(page, phrases.text("notes_heading"), quote.notes.split("\n"))
    _write_paragraphs(page, phrases.text("cautions_heading"), quote.cautions)
    _write_paragraphs(page, phrases.text("terms_heading"), _terms(quote, phrases))


def _terms(quote: Quote, phrases: Phrases) -> Sequence[str]:
    """Give the paragraphs that concern this client; a text of the owner's own for all of them stands alone."""
    own = phrases.text("terms_text")
    if own.strip():
        return own.split("\n")
    keys = ["terms_always"]
    if quote.has_hire:
        keys.append("terms_hire")
    keys.append("terms_collected" if quote.is_collected else "terms_delivered")
    return [paragraph for key in keys for paragraph in phrases.text(key).split("\n")]


def _write_paragraphs(page: Page, heading: str, paragraphs: Sequence[str]) -> None:
    texts = [text.strip() for text in paragraphs if text.strip()]
    if not texts:
        return
    page.begin_block()
    page.gap(6)
    page.paragraph(heading, 0, _LAST, bold=True, color=ACCENT)
    for number, text in enumerate(texts):
        if number:
            page.begin_block()
        ended = with_line_ends(text, sum(page.widths), _SIZE)
        page.paragraph(ended, 0, _LAST, size=_SIZE, color=QUIET, padding=2)


def write_acceptance(page: Page, quote: Quote, phrases: Phrases) -> None:
    """Write what the client signs, with room for signature, name and date, and the thanks."""
    page.begin_block()
    page.gap(8)
    page.paragraph(phrases.text("acceptance_heading"), 0, _LAST, bold=True, color=ACCENT)
    text = phrases.text("acceptance_text", number=quote.number, revision=str(quote.revision))
    page.paragraph(text, 0, _LAST, size=9, color=INK)
    _write_signing(page, [(0, 1, phrases.text("signature")), (3, _LAST, phrases.text("date"))])
    _write_signing(page, [(0, 1, phrases.text("signed_name"))], thanks=phrases.text("thanks"))


def _write_signing(page: Page, places: Sequence[tuple[int, int, str]], thanks: str = "") -> None:
    """Write lines to sign on, each over columns first to last, with a label below; the thanks end the last row."""
    line, label = page.inks(bottom=1, bottom_color=QUIET), page.inks(size=8.5, color=QUIET)
    for first, last, _ in places:
        for column in range(first, last + 1):
            page.write(column, None, line)
    page.end_row(23)
    for first, last, text in places:
        page.span(first, last, text, label)
    if thanks:
        page.span(2, _LAST, thanks, page.inks(size=9, color=ACCENT, align="right", text_wrap=True))
    page.end_row(row_height(page.lines(thanks, 2, _LAST, 9), 9))
