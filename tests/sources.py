"""The program's own modules as Python reads them: several tests look through all of them, and each is parsed once."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path


@cache
def tree(path: Path) -> ast.Module:
    """A module, parsed."""
    return ast.parse(path.read_text("utf-8"))


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All that a module is made of, from the whole down to each part."""
    return tuple(ast.walk(tree(path)))


def calls(folder: Path, name: str) -> Iterator[tuple[str, ast.Call]]:
    """Each call of a function or class by its plain name, in the modules under a folder, with its place."""
    for path in sorted(folder.rglob("*.py")):
        for node in nodes(path) if f"{name}(" in path.read_text("utf-8") else ():
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name:
                yield f"{path.name}:{node.lineno}", node
