"""What holds for every test: no animation, private folders, property tests without a stopwatch."""

from __future__ import annotations

import os
from pathlib import Path

# Read once, when textual is imported: animations would only make tests wait.
os.environ["TEXTUAL_ANIMATIONS"] = "none"

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("house", deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("long", deadline=None, max_examples=2000, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))


@pytest.fixture(autouse=True)
def _private_folders(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """A home of its own for each test, so that none reads or writes the files of whoever runs it."""
    home = tmp_path_factory.mktemp("home", numbered=True)
    monkeypatch.setenv("HOME", str(home))
    for name, folder in (
        ("XDG_CONFIG_HOME", ".config"),
        ("XDG_DATA_HOME", ".local/share"),
        ("XDG_STATE_HOME", ".local/state"),
        ("XDG_CACHE_HOME", ".cache"),
    ):
        monkeypatch.setenv(name, str(Path(home, folder)))
