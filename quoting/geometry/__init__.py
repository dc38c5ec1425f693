"""Rings, curves and helices: numbers in, numbers out.

What is here: `rings` (balloons round a pole), `curves` (arches), `helix` (twisters
wound round a pole), `packing` (grids and rooms full of balloons), `areas` and
`letters` (flat shapes and what is laid over them). What comes in: lengths as floats in any one unit. What goes
out: lengths in the same unit, and angles in radians. No counts are made here but
whole rings, rows and columns, through `quoting.domain.counts`.
"""
