"""Finding the families of rules: every module of this package whose name says that it holds some."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path


@cache
def import_families(ending: str) -> tuple[str, ...]:
    """Import every module here whose name ends so (`_rules`, `_figures`, `_checks`); gives their names."""
    names = tuple(sorted(path.stem for path in Path(__file__).parent.glob(f"*{ending}.py")))
    for name in names:
        import_module(f"store.rules.{name}")
    return names
