"""A sheet that was made; light, for every command starts with it."""

from __future__ import annotations

PACKETS = "packets"
"""Asks for the packets of all trades."""


class Made:
    """A sheet that was made. A plain class: a named tuple would bring in all of typing, for nothing else here."""

    __slots__ = ("form", "missing", "name", "text")

    def __init__(self, name: str, form: str, text: str, missing: list[str]) -> None:
        self.name = name
        self.form = form
        self.text = text
        self.missing = missing
        """What is missing of a packet; of another sheet nothing is."""
