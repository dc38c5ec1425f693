"""Does it fit, stand and last, and what must people be warned of.

What is here: the cautions of a job. What comes in: a job, the plans of its pieces,
the price book (for the owner's wording). What goes out: lines for the client's quote
and for the crew's sheet. Local code and licensed practice come first, always.
"""
