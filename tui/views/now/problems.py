"""Findings: everything that is dangerous, will not fit, or should be looked at, over the whole job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.book.changes import set_down
from store.measure.text import capital
from store.records.gate import Answer
from store.rules.core.findings import accepted_line, answer_missing
from store.rules.core.together import together
from store.rules.service.upkeep import upkeep
from tui.acts.page import SIGN
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line


def _jump(desk: Desk, key: str) -> None:
    finding = desk.state.finding(key)
    if finding is not None and finding.tags:
        desk.go_to(finding.tags[0])


def _answer(desk: Desk, key: str) -> None:
    """Write down who answered a finding, in what office or by what licence, with what reference, and what."""
    finding = desk.state.finding(key)
    if finding is None:
        return
    if not finding.takes_answer:
        desk.say(f"No one can accept this. {finding.do}", bad=True)
        return
    old = desk.state.job.of(Answer).get(key)
    given = {name: getattr(old, name) for name in ("by", "office", "reference", "says", "notes")} if old else {}

    def save(typed: dict[str, Any]) -> str:
        answer = Answer(tag=key, vouches=finding.numbers, **typed)
        if wrong := answer_missing(finding, answer):
            return f"{capital(wrong).removesuffix('.')}."
        if not desk.act(f"Accept {key}", [set_down(desk.state.job, answer)]):
            return "Not saved. What you typed is still here."
        desk.say("Accepted. It reopens if its numbers change. u = undo")
        return ""

    desk.fill_out(f"Accept: {finding.headline}", Answer, {"date": desk.state.job.today, **given}, save)


TONES = {"stop": "stop", "fix": "warn", "look": ""}
"""The tone of a row by its gravity."""
WORDS = {"stop": "stops", "fix": "to fix", "look": "to check"}


class Findings(View):
    """Every finding, the gravest first."""

    name = "findings"
    title = "Problems"
    follows = "Looking for problems"
    about = (
        "Problems found from everything you entered. Stop = dangerous, or about to be covered. Fix = won't fit, "
        "work or pass inspection. Check = someone must look or decide. Enter = why, what to do and the source. f "
        "= next filter, also what to look after in later years. Licensed practice wins over anything here."
    )
    first = "Enter on the top line. F = fix it, where the fix can be calculated."
    often = ("F",)
    filters = ("all", "stop", "fix", "look", "to look after", "answered")
    keys = (Key("y", "Accept", _answer), Key("t", "To the record", _jump))

    def columns(self, state: State) -> tuple[Column, ...]:
        """Gravity, tags, what is so, what to do."""
        return (
            Column("", 8 if any(each.answered for each in state.found) else 7),
            Column("about", 7),
            Column("problem", 60),
            Column("do", 20, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """The open ones of a gravity, or the answered ones; among all, those of one kind on one line."""
        if chosen == "all":
            return together(state.found)
        if chosen == "to look after":
            return upkeep(state.found)
        if chosen == "answered":
            return [each for each in state.found if each.answered]
        return [each for each in state.found if chosen == each.severity]

    def key(self, row: Any) -> str:
        """The finding's key."""
        return str(row.key)

    def subject(self, state: State, key: str) -> str:
        """The first thing that it names."""
        return key.partition(":")[2].partition(",")[0]

    def words(self, row: Any) -> str:
        """All of it."""
        return f"{row.severity} {row.rule} {' '.join(row.tags)} {row.says} {row.remedy}".lower()

    def line(self, state: State, row: Any) -> Line:
        """One finding."""
        sign = "Accepted" if row.answered else SIGN[row.severity]
        tone = "muted" if row.answered else TONES[row.severity]
        do = accepted_line(row.answer, state.job.manner.day_first) if row.answered else row.do
        return Line((sign, " ".join(row.tags), row.headline or row.head, do), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """The gravest first."""
        return list(SIGN).index(row.severity) if column == 0 else super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many of each gravity."""
        counts = {name: sum(e.severity == name and not e.answered for e in state.found) for name in SIGN}
        told = [
            f"{count} {WORDS[name] if name != 'stop' or count != 1 else 'stop'}"
            for name, count in counts.items()
            if count
        ]
        return f"{', '.join(told) or 'No problems'}. Local code and licensed practice win"
