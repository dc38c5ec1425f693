"""What all tests share: the office software, made mandatory by QUOTING_OFFICE=required."""

from __future__ import annotations

import os
import shutil

import pytest
from hypothesis import settings

# The same examples every time: a failure is then one of the change at hand.
settings.register_profile("suite", derandomize=True, database=None)
settings.load_profile("suite")


def pytest_collection_modifyitems(items):
    """Skip tests marked `office` where the software is missing, unless it is required."""
    if (shutil.which("soffice") and shutil.which("pdftoppm")) or os.environ.get("QUOTING_OFFICE") == "required":
        return
    for item in items:
        if item.get_closest_marker("office"):
            item.add_marker(pytest.mark.skip(reason="LibreOffice or poppler is not installed"))
