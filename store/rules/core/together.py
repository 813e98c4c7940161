"""Findings of one kind on one line with their count, for lists that people read; nothing is left out of the line.

`--json`, answers and the gate go by each finding; what is put together here is only how a list tells them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import takewhile

import msgspec

from store.records.gate import Answer
from store.rules.core.findings import Finding, Severity
from store.rules.core.headline import MOST, with_tags

_ENTRY, _HEATER = "Not entered yet", "Heater: not entered yet"
BLANK = {
    **dict.fromkeys(
        (
            "box_contents_unknown", "box_volume_unknown", "cabinet_air_not_known", "cable_length_unknown",
            "circuit_not_known", "fit_not_known", "fixing_unknown", "panel_not_measured", "power_box_without_circuit",
            "power_unknown", "seat_not_noted", "shelf_not_chosen",
            "shelf_not_placed", "strip_places_unknown", "watts_not_known", "way_in_doubtful",
        ),
        _ENTRY,
    ),
    **dict.fromkeys(
        ("heater_clearance_not_known", "heater_not_known", "heater_watts_unknown", "surface_may_burn"), _HEATER
    ),
}  # fmt: skip
"""Rules that tell of nothing wrong: an entry is blank, and until it is there nothing can be told. What a line of them
is called; what is not known of a heater has its own, as it can burn a house down."""
OF_HEATER = frozenset({
    "breaker_over_wire", "circuit_overloaded", "fixed_over_half", "heater_circuit_too_small", "heater_near_limit",
    "heater_open_place", "heater_shares_circuit", "heater_to_ask", "hours_matter", "plug_in_over_80",
    "receptacle_overloaded", "receptacle_rating", "voltage_drop", "wire_overloaded",
})  # fmt: skip
"""Rules that say of a heater and its circuit, each in its way, that it wants a circuit made for it."""
_OWN_CIRCUIT = {
    "heater_shares_circuit": "Heater needs a circuit of its own",
    "heater_circuit_too_small": "Heater needs a larger circuit",
}
"""Rules that open such a line, and what it says; their tags are the heater's and the circuit's."""
LEAST_WORDS = 2
"""Words that the problems of a line share at their beginning; fewer would not say what they are."""
_LOOSE = frozenset({"at", "by", "can", "for", "in", "is", "of", "on", "start", "the", "to", "a", "an", "and"})
"""Words that a problem does not end on."""
_UNITS = frozenset({"mm", "m", "in", "ft", "A", "W", "V", "kg", "lb", "mm²", "in³", "%"})


class Told(msgspec.Struct, frozen=True):
    """A line of a list of problems: one finding, or several of one kind."""

    findings: tuple[Finding, ...]
    called: str = ""
    """What a line of several rules says; empty where the findings themselves do."""

    @property
    def first(self) -> Finding:
        """The finding that stands first in the list; where the line has words of its own, the one that opens it."""
        return self.opens or self.findings[0]

    @property
    def opens(self) -> Finding | None:
        """The finding whose words are those of the line."""
        return next((each for each in self.findings if _OWN_CIRCUIT.get(each.rule) == self.called), None)

    @property
    def key(self) -> str:
        """The key of the first of them."""
        return self.first.key

    @property
    def rule(self) -> str:
        """The rule of the first of them."""
        return self.first.rule

    @property
    def severity(self) -> Severity:
        """How grave they are: as the gravest, which stands first."""
        return self.findings[0].severity

    @property
    def tags(self) -> tuple[str, ...]:
        """Everything that they are about, each once."""
        return tuple(dict.fromkeys(tag for each in self.findings for tag in each.tags))

    @property
    def answer(self) -> Answer | None:
        """The answer; several findings on one line have none."""
        return self.first.answer

    @property
    def answered(self) -> bool:
        """True when somebody who may has answered it; what is answered stands on a line of its own."""
        return self.first.answered

    @property
    def headline(self) -> str:
        """The problem with tag and name, in 60 characters; of several the problem once, their count and their tags."""
        if len(self.findings) == 1:
            return self.first.headline or self.first.head
        count = len(self.findings)
        if (opens := self.opens) is not None:
            return with_tags(f"{self.called} ({count})", opens.tags)
        if self.first.rule in BLANK:
            return with_tags(f"{BLANK[self.first.rule]} ({count})", _subjects(self.findings))
        shared = _shared([each.headline.partition(", ")[0] if each.headline else each.head for each in self.findings])
        if not shared:
            return f"{self.first.headline[: MOST - 9].rstrip()} +{count - 1} more"
        return with_tags(f"{shared} ({count})", _subjects(self.findings))

    @property
    def head(self) -> str:
        """The same."""
        return self.headline

    @property
    def why(self) -> str:
        """Why of the one; of several the headlines of all."""
        if len(self.findings) == 1:
            return self.first.why
        return " ".join(f"{each.headline or each.head}." for each in self.findings)

    @property
    def says(self) -> str:
        """Headline and why as one text."""
        return self.first.says if len(self.findings) == 1 else f"{self.headline}. {self.why}"

    @property
    def do(self) -> str:
        """What to do: that of the first where they differ."""
        if len(self.findings) > 1 and self.first.rule in BLANK:
            return "Look each up in the manual or read it on the wall, and enter it."
        return self.first.do

    @property
    def remedy(self) -> str:
        """The same."""
        return self.do

    @property
    def source(self) -> str:
        """Of the first."""
        return self.first.source


def together(found: Iterable[Finding]) -> list[Told]:
    """The findings as lines: open ones of one kind together, at the place of the first; answered ones each alone.

    What is told of a heater and of the circuit that it shares is one line, whatever rules tell it.
    """
    found = list(found)
    circuits = _circuits_of_heaters(found)
    lines: dict[object, list[Finding]] = {}
    for each in found:
        kind: object = (BLANK.get(each.rule, each.rule), each.severity)
        if each.answered:
            kind = each.key
        elif each.rule in OF_HEATER and (circuit := next((tag for tag in each.tags if tag in circuits), "")):
            kind = circuits[circuit]
        lines.setdefault(kind, []).append(each)
    return [Told(tuple(each), kind[1] if isinstance(kind, _Heater) else "") for kind, each in lines.items()]


class _Heater(tuple[str, str]):
    """A heater, and what the line of its circuit says."""

    __slots__ = ()


def _circuits_of_heaters(found: Iterable[Finding]) -> dict[str, _Heater]:
    """By the tags of heaters and of their circuits, the line they are told on: where it shares, or is too small."""
    lines: dict[str, _Heater] = {}
    for rule, says in _OWN_CIRCUIT.items():
        for each in found:
            if each.rule == rule and not each.answered and each.tags[1] not in lines:
                lines.update(dict.fromkeys(each.tags, _Heater((each.tags[0], says))))
    return lines


def of_one_kind(found: Iterable[Finding], one: Finding) -> Sequence[Finding]:
    """The open findings that stand on one line with a finding, itself among them."""
    return next((line.findings for line in together(found) if one in line.findings), (one,))


def _subjects(found: Iterable[Finding]) -> list[str]:
    """The things that each is about, each thing once."""
    return list(dict.fromkeys(tag for each in found for tag in (each.about or each.tags[:1])))


def _shared(heads: Sequence[str]) -> str:
    """What several problems begin with, in whole words, or begin and end with; empty where that says too little."""
    if len(set(heads)) == 1:
        return heads[0]
    front = _alike([head.split() for head in heads])
    back = _alike([head.split()[len(front) :][::-1] for head in heads])[::-1]
    while front and front[-1].strip(":,").lower() in _LOOSE:
        front.pop()
    while back and back[0].rstrip(",") in _UNITS:  # of a number that is left out
        back.pop(0)
    begun, ended = " ".join(front).rstrip(":,"), " ".join(back)
    if front and back and len(front) + len(back) > LEAST_WORDS:
        return f"{begun} … {ended}"
    return begun if len(front) >= LEAST_WORDS else ""


def _alike(words: Sequence[Sequence[str]]) -> list[str]:
    """The words that all begin with."""
    return [each[0] for each in takewhile(lambda same: len(set(same)) == 1, zip(*words, strict=False))]
