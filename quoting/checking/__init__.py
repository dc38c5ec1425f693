"""From rows of cells to jobs and a price book, or to the problems that stand against them.

What is here: `schemas/` (one JSON Schema per sheet: the single source of checks,
columns, drop-downs, notes and the reference table), `layouts` (the book as reading
and the blank book need it), `rows` (each row against its schema), `crosses` (checks
across rows and sheets, in one ordered tuple), `conversion` (rows to domain values),
`books` (the room's entry).
What comes in: the tables of all workbooks of a run, and the run's date.
What goes out: `Checked` (price book, good jobs, every job code seen) and problems.
"""
