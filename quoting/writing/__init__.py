"""Files: the client's quote, the workshop sheet, the summary, marked copies, results.json.

What comes in: quotes, job sheets, results and problems (domain values). What goes
out: files at the paths handed in; nothing is read but the book a marked copy is made of.
The client's file is written from a `Quote` and the pictures of its pieces alone, which hold nothing internal.
"""
