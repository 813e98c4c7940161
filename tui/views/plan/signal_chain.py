"""The signal chain as a tree: each screen with what feeds it, then sound, then the network."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from store.records.base import Record
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import sold_text
from store.rules.cable.lengths import needs
from store.rules.core.memo import once
from store.rules.core.was_done import cable_state
from store.rules.core.wording import plural
from store.rules.signal.tree import Twig, signal_tree, twigs
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, View
from tui.widgets.record_table import Column, Line


@once
def _tree(job: Job) -> dict[str, Twig]:
    """Every line of the tree by its key: device, heading and cable, so that a device may stand under two headings."""
    return {_key(each): each for each in twigs(signal_tree(job))}


def _key(twig: Twig) -> str:
    branch = twig.branch
    return f"{branch.tag or branch.cable}/{twig.head}/{branch.cable}"


def _tag(key: str) -> str:
    return key.partition("/")[0]


def _to_cable(desk: Desk, key: str) -> None:
    cable = key.rpartition("/")[2]
    if cable:
        desk.go_to(cable)
    else:
        desk.say("No cable runs up from here: the chain begins here", bad=True)


class Signal(View):
    """What is connected to what."""

    name = "signal"
    title = "Signal chain"
    about = (
        "What connects to what, from the ports of the equipment and the ends of the cables: each TV "
        "with its sources, the sound, the network, and last what is not connected. Enter = the equipment "
        " t = its cable  a = add a cable from here. P = print as a picture."
    )
    first = "Enter the ports of the equipment (4, e). Then a = add a cable from the line you are on."
    sheets = ("signal",)
    kinds = (Cable,)
    keys = (Key("t", "Its cable", _to_cable),)

    def columns(self, state: State) -> tuple[Column, ...]:
        """The tree, its cable, and what is wrong there."""
        return (
            Column("what connects", 40, grow=True),
            Column("cable", 9),
            Column("cut", 7, right=True),
            Column("problem", 16, grow=True),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """The tree from its top."""
        return list(_tree(state.job).values())

    def key(self, row: Any) -> str:
        """A key that stays while the device and its cable do."""
        return _key(row)

    def words(self, row: Any) -> str:
        """What stands there."""
        return f"{row.head} {row.branch.tag} {row.branch.text}".lower()

    def line(self, state: State, row: Any) -> Line:
        """A line of the tree; a heading in its own tone."""
        branch = row.branch
        if not row.lead:
            return Line((branch.text, "", "", ""), "head")
        need = needs(state.job).get(branch.cable)
        cut = sold_text(need.cut, state.job.settings.metric) if need is not None and need.cut is not None else ""
        wrong = _wrong(state, row)
        how = cable_state(state.job, need.cable) if need is not None else ""
        return Line((row.lead + branch.text, how, cut, wrong), "warn" if wrong else "")

    def order(self, state: State, row: Any, column: int) -> Any:
        """The name without the rules of the tree, lengths by value."""
        need = needs(state.job).get(row.branch.cable)
        if column == 2:
            return need.cut if need is not None else None
        return row.branch.text.lower() if column == 0 else super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """How many are joined, and how many of them have something wrong."""
        shown = [row for row in rows if row.lead]
        if not shown:
            return "No equipment with ports yet. Enter ports in Equipment, like hdmi in, hdmi out, ethernet"
        wrong = sum(bool(_wrong(state, row)) for row in shown)
        return plural(len(shown), "line") + (f", {plural(wrong, 'problem')} (!)" if wrong else ", no problems")

    def record(self, state: State, key: str) -> Record | None:
        """The device, or the cable whose far end is not known."""
        return state.job.get(_tag(key))

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """A new cable begins at the device under the cursor."""
        tag = _tag(key) if key else ""
        return {"start": tag} if tag.startswith("E") else {}

    def page(self, state: State, key: str) -> tuple[str, str]:
        """What is wrong there, and where it is."""
        twig = _tree(state.job).get(key)
        if twig is None:
            return key, ""
        about = [each for tag in (twig.branch.tag, twig.branch.cable) if tag for each in state.about(tag)]
        lines = dict.fromkeys(f"{each.severity}: {each.says}\n  {each.remedy}" for each in about)
        return twig.branch.text, "\n\n".join(lines) or "No problems here."

    def opened(self, desk: Desk, key: str) -> None:
        """To the record."""
        if _tag(key):
            desk.go_to(_tag(key))


def _wrong(state: State, twig: Twig) -> str:
    """What is wrong with the chain here, in a few words; each fault stands at what it is first of all about."""
    branch = twig.branch
    tags = [branch.cable] if _first(state.job).get(branch.tag) != _key(twig) else [branch.cable, branch.tag]
    found = [
        each
        for tag in tags
        if tag
        for each in state.about(tag)
        if each.rule in CHAIN and not each.answered and tag == next(one for one in each.tags if one[0] in "EKB")
    ]
    return ", ".join(dict.fromkeys(f"! {CHAIN[each.rule]}" for each in found))


@once
def _first(job: Job) -> dict[str, str]:
    """The first line of each device, by its tag."""
    found: dict[str, str] = {}
    for key, twig in _tree(job).items():
        found.setdefault(twig.branch.tag, key)
    return found


CHAIN = {
    "no_port": "no port for it",
    "ports_used_up": "no ports left",
    "cable_wrong_way_round": "wrong way around",
    "source_without_way": "no way to a TV",
    "too_few_inputs": "too few inputs",
    "too_few_network_ports": "too few network ports",
    "speaker_not_connected": "no cable to it",
    "subwoofer_not_connected": "no cable to it",
    "switch_without_uplink": "no uplink",
    "no_poe_there": "no power over the cable",
    "between_passes_on": "what does it pass on?",
    "screen_shows_less": "carries less than the TV shows",
    "no_sound_return": "no sound return",
    "remote_behind_door": "remote behind a door",
    "wireless_in_metal": "radio in metal",
    "quick_connect_without_input": "no input left",
    "cable_too_long": "too long",
    "picture_cable_long": "long for its rate",
    "coax_loses_much": "high loss",
    "speaker_cable_thin": "too thin",
}
"""Findings about the chain, in a word or two for a line of the tree."""
