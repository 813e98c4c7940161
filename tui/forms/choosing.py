"""How typing chooses: among closed choices, and among records by their names."""

from __future__ import annotations

from collections.abc import Sequence

from tui.shared.ranking import at_a_word, rank, ranked


def narrowed(choices: Sequence[str], typed: str) -> list[str]:
    """The choices that have what was typed at the start of a word; those that merely hold it where there is none."""
    order = ranked(choices, typed)
    text = " ".join(typed.lower().split())
    sharp = [place for place in order if (rank(choices[place].lower(), text) or 0) < 2]
    return [choices[place] for place in sharp or order]


class Typed:
    """What was typed on a field of choices since it was come to."""

    def __init__(self) -> None:
        self.text = ""

    def clear(self) -> None:
        """Nothing was typed yet."""
        self.text = ""

    def add(self, choices: Sequence[str], letter: str, now: str) -> str | None:
        """The choice after one more letter; None where no choice has it: the letter is then as if not typed.

        A space goes on to the next of those that fit, unless a choice has a space there.
        """
        longer = self.text + letter
        if letter == " ":
            fitting = narrowed(choices, self.text)
            fitting = fitting if len(fitting) > 1 else list(choices)
            if not self.text.strip() or not any(at_a_word(each, longer) for each in choices):
                return fitting[(fitting.index(now) + 1) % len(fitting)] if now in fitting else fitting[0]
        found = narrowed(choices, longer)
        if len(longer.strip()) == 1 and found and (rank(found[0].lower(), longer.strip().lower()) or 0) > 1:
            return None  # one letter in the middle of a word says nothing
        if not found and set(longer.lower()) == {letter.lower()}:
            # The same letter again: the next that begins with it, as lists everywhere do.
            begin = [each for each in choices if each.lower().startswith(letter.lower())]
            return begin[(begin.index(now) + 1) % len(begin)] if now in begin else begin[0] if begin else None
        if not found:
            return None
        self.text = longer
        return found[0]

    def back(self, choices: Sequence[str]) -> str | None:
        """The choice after the last letter was taken away again; None where none is left."""
        self.text = self.text[:-1]
        return narrowed(choices, self.text)[0] if self.text.strip() else None


def tag_of(typed: str, candidates: Sequence[tuple[str, str]]) -> str:
    """The tag of the one record that a typed name means; the text itself where none or several are meant."""
    text = typed.strip()
    if not text or text.upper() in {tag for tag, _ in candidates}:
        return typed
    order = ranked([label for _, label in candidates], text)
    labels = [candidates[place][1].lower() for place in order]
    sharp = [place for place, label in zip(order, labels, strict=True) if (rank(label, text.lower()) or 0) < 2]
    return candidates[sharp[0]][0] if len(sharp) == 1 else typed
