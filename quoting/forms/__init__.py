"""The forms a piece can take, one file each.

What is here: `fields` (the columns of the Pieces sheet that forms ask for),
`registry` (finds the forms), one module per form with its `FORM`, and what forms
share: colours, balloons, hardware, attachments, tasks, outlines, workings.
What comes in: a checked piece and the price book.
What goes out: a plan (parts, tasks, hire, outline, positions, build order,
workings), or the problems that stand against one, each at its cell.
"""
