"""The values every other room speaks in.

What is here: places, problems and their codes, cells and rows, layouts of sheets,
money and measures, clocks, price book, jobs and pieces, plans, quotes.
What comes in: nothing; this room imports no other.
What goes out: frozen dataclasses and small pure functions over them.
"""
