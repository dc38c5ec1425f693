"""Workbooks in, rows of typed values out: the only reader of spreadsheets.

What comes in: paths of books (.xlsx, .xlsm, .ods) and the layouts of their sheets.
What goes out: a `Book` of cells as the file holds them (`workbooks.read_book`), then
its `Table`s with typed values (`tables.read_tables`), every value with its place.
A file that can't be read and a cell that can't be understood is a problem, never an
exception. Book.xlsx → archives, xml_parts → xlsx_books or ods_books → headings,
settings, tables → values (numbers, measures, dates, lists).
"""
