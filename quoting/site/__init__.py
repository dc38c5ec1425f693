"""Does it fit, stand and last, and what must people be warned of.

What is here: fit (ceiling, sprinklers, doors), stand (wind and ballast), last (hours
afloat, cold, heat), and the cautions of a job. What comes in: a job, the plans of its
pieces, the price book. What goes out: flags with their figures and workings for the
workshop sheet, notes for the owner, lines in the owner's wording for the client's
quote. Nothing here knows a form by name. All of it is for planning: a competent
person, local code and licensed practice come first, always.
"""
