"""The worked examples in the docstrings of costing are true."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest


@pytest.mark.parametrize("name", ["totals", "tax_amounts", "breakage", "covers"])
def test_the_examples_in_docstrings(name):
    result = doctest.testmod(import_module(f"quoting.costing.{name}"))
    assert result.attempted
    assert not result.failed
