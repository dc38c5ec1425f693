"""The sample batches written once for all evening tests."""

from __future__ import annotations

from pathlib import Path

import pytest
from scenes import NAMES, RUN_DATE, SAMPLES

from quoting.batch import run_evening


@pytest.fixture(scope="session")
def evenings(tmp_path_factory) -> dict[str, Path]:
    """Each sample's evening folder: name → the dated folder that was written."""
    into = tmp_path_factory.mktemp("evenings")
    return {name: run_evening([SAMPLES / name], into / name, RUN_DATE)[1].folder for name in NAMES}
