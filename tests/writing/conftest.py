"""Lets the tests of the papers use the hand-made price books of the forms and of costing."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent.parent / room) for room in ("forms", "costing")]
