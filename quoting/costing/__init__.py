"""What a job comes to: stock, hours, delivery, prices, adjustments, tax and terms.

What is here: breakage and packs, stock and hire, labour, delivery, prices, the tax
and totals core, terms, and the workings that show all of it as live formulas.
What comes in: a job, the plans of its pieces, the price book, the cautions.
What goes out: a `JobSheet` with its `Quote`, or the problems that hold the job; the
batch's buying list. Money is exact throughout and rounded once per printed amount.
"""
