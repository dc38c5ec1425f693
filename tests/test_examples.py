"""The worked examples in docstrings come out as they say."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "quoting"


def test_worked_examples():
    tried = 0
    for path in sorted(PACKAGE.rglob("*.py")):
        name = ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")
        failed, count = doctest.testmod(importlib.import_module(name))
        assert not failed, name
        tried += count
    assert tried > 10
