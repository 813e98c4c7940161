"""What the tests of the book share."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest


@pytest.fixture
def tmp_path() -> Iterator[Path]:
    """A folder on a disk: how a file is made safe there, no folder in memory can show."""
    with tempfile.TemporaryDirectory() as folder:
        yield Path(folder)
