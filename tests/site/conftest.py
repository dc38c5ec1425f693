"""Lets the tests of the site use the hand-made jobs and price books of costing."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "costing"))
