"""The amounts and counts of the sample batches, written so that a change can be read like code.

    python tests/evening/golden.py            writes tests/cases/samples/dollars.toml, euros.toml and forms.toml
"""

from __future__ import annotations

import json
import sys
import tomllib
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from scenes import CASES, GOOD, jobs_of

COMMAND = "python tests/evening/golden.py"


def figures(sheet) -> dict[str, object]:
    """One job's printed amounts, and the counts behind them."""
    quote = sheet.quote
    totals, terms = quote.totals, quote.terms
    return {
        "number": f"{quote.number} revision {quote.revision}",
        "lines": [
            f"{line.label or line.kind.value}: {line.quantity} x {line.unit_price} = {line.amount}"
            for line in quote.lines
        ],
        "adjustments": [f"{each.name}: {'-' if each.is_discount else '+'}{each.amount}" for each in quote.adjustments],
        "taxes": [f"{tax.code} {tax.rate * 100:f} % on {tax.taxable} = {tax.amount}" for tax in totals.taxes],
        "foot": {
            key: str(getattr(totals, key))
            for key in ("subtotal", "discount", "charges", "tax", "total", "cash_rounding", "payable")
        },
        "deposit": f"{terms.deposit} by {terms.deposit_due}, {terms.balance} by {terms.balance_due}",
        "damage_hold": str(terms.damage_hold),
        "parts": [
            f"{piece.label}: {part.count} {part.item} ({part.role})"
            for piece in sheet.pieces
            for part in piece.plan.parts
        ],
        "stock": [
            f"{line.item}: {line.need}, {line.with_spares} with spares, {line.charged_count} charged"
            for line in sheet.stock
        ],
        "hours": f"workshop {sheet.hours.workshop:.4f}, venue {sheet.hours.venue:.4f}",
        "cost": f"{sheet.cost:.2f}",
        "margin": f"{sheet.margin:.4f}",
    }


def as_toml(jobs: dict[str, dict[str, object]]) -> str:
    """The figures of every job as TOML, one line for each of a list's entries."""
    text = f"# Made by {COMMAND}; read every change like code.\n"
    for job, told in jobs.items():
        text += f"\n[{json.dumps(job)}]\n"
        text += "".join(f"{key} = {_value(value)}\n" for key, value in told.items())
    return text


def _value(value: object) -> str:
    if isinstance(value, list):
        lines = "".join(f"  {json.dumps(each, ensure_ascii=False)},\n" for each in value)
        return f"[\n{lines}]" if value else "[]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {json.dumps(each)}" for key, each in value.items()) + " }"
    return json.dumps(value, ensure_ascii=False)


def kept(name: str) -> dict[str, dict[str, object]]:
    """The figures as they were checked in."""
    return tomllib.loads((CASES / f"{name}.toml").read_text("utf-8"))


def main() -> None:
    """Write the golden files anew."""
    for name in GOOD:
        found = {job: figures(sheet) for job, sheet in jobs_of(name).items()}
        (CASES / f"{name}.toml").write_text(as_toml(found), "utf-8")
        sys.stdout.write(f"{name}: {len(found)} jobs\n")


if __name__ == "__main__":
    main()
