"""Pictures of pieces: a `Plan` and the looks of its balloons in, the bytes of a PNG file out.

`elevation.draw_piece` draws, `words.alternative_text` says the same for those who
can't see it. Both read plans only and know no form by name. Everything is drawn from
the positions that were counted; equal input gives equal bytes.
"""
