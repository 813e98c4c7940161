"""The words of a command in any order: options before, between or after what they are about."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any  # itself a thirtieth of the time of a short command

ANSWERS: dict[str, str] = {
    "name": "what you call the wall",
    "room": "the room it is in",
    "width": "wall width, like 12' or 3600; rough will do",
    "height": "wall height, like 8' or 2400",
    "depth": "depth of what is built out, like 22 or 550",
    "screen": "size of the TV in inches, like 65",
    "fireplace": "width of the fireplace, like 50 or 1270; none",
    "cabinets": "both, left, right or none",
    "speakers": "0, 2, 3 or 5",
    "seat": "seat to TV, like 10' or 3000",
    "eye": "seated eye height, like 42 or 1070",
}
"""What `new` asks for a first plan, each an option; what is not said is as usual."""


class AnyOrder(argparse.ArgumentParser):
    """A parser that takes its options anywhere.

    argparse itself gives up an optional last word as soon as an option stands before it (`export equipment JOB --force
    FILE`), so the options are put in front first.
    """

    def add_argument(self, *args: Any, **kwargs: Any) -> argparse.Action:
        """As argparse, keeping in mind which options have a word behind them."""
        action = super().add_argument(*args, **kwargs)
        taking: dict[str, bool] = self.__dict__.setdefault("_taking", {})
        taking.update(dict.fromkeys(action.option_strings, action.nargs != 0))
        return action

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """As argparse, with the options first."""
        return super().parse_known_args(args if args is None else self._options_first(list(args)), namespace)

    def _options_first(self, words: Sequence[str]) -> list[str]:
        options: list[str] = []
        others: list[str] = []
        at = 0
        while at < len(words):
            word = words[at]
            at += 1
            if word == "--":
                return [*options, "--", *others, *words[at:]]
            if not word.startswith("-") or word == "-":
                others.append(word)
                continue
            options.append(word)
            if "=" not in word and self._takes_a_word(word) and at < len(words):
                options.append(words[at])
                at += 1
        return [*options, *others]

    def _takes_a_word(self, option: str) -> bool:
        taking: dict[str, bool] = self.__dict__["_taking"]
        meant = [name for name in taking if name == option] or [name for name in taking if name.startswith(option)]
        return any(taking[name] for name in meant)
