"""Rings, curves and helices: numbers in, numbers out.

What is here: `rings` (balloons round a pole), `curves` (arches), `helix` (twisters
wound round a pole). What comes in: lengths as floats in any one unit. What goes
out: lengths in the same unit, and angles in radians. No counts are made here but
the one count of rings for a height, through `quoting.domain.counts`.
"""
