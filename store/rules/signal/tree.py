"""The signal chain as a tree: each screen with what feeds it, then sound, then the network."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.core.wording import listed
from store.rules.signal.chain import LINK_WORD, Link, devices_at, having, links, ports, screens


class Branch(msgspec.Struct, frozen=True):
    """A device in the tree, with the cable that joins it to the one above."""

    tag: str
    """Of the device; empty for a heading or an end that is not known."""
    cable: str
    text: str
    under: tuple[Branch, ...] = ()


def signal_tree(job: Job) -> tuple[Branch, ...]:
    """The whole signal chain. Every link stands in it once; what hangs on nothing stands under the last heading."""
    return _Tree(job).grow()


class _Tree:
    def __init__(self, job: Job) -> None:
        self.job = job
        self.left = list(links(job).made)
        self.misfits = {each.cable: each for each in links(job).misfits}
        self.drawn: set[str] = set()

    def grow(self) -> tuple[Branch, ...]:
        heads = []
        for title, roots, kinds, inward in (
            ("Picture", screens(self.job), ("hdmi", "hdbaset", "coax", "usb"), True),
            (
                "Sound",
                self._having("speaker", "out") + self._having("line", "out"),
                ("speaker", "line", "optical"),
                False,
            ),
            ("Network", self._network(), ("ethernet",), False),
        ):
            under = tuple(self._branch(root, None, kinds, inward, frozenset()) for root in roots)
            if under := tuple(each for each in under if each.under or title == "Picture"):
                heads.append(Branch("", "", title, under))
        self.drawn = {tag for head in heads for tag in _tags(head)}
        rest = [Branch("", link.cable, self._loose(link)) for link in self.left]
        rest += [
            Branch(tag, "", f"{self._name(tag)}: {self._why_alone(tag)}")
            for tag, each in ports(self.job).items()
            if each and tag not in self.drawn and not any(tag in (link.source, link.sink) for link in self.left)
        ]
        if rest:
            heads.append(Branch("", "", "Elsewhere", tuple(rest)))
        return tuple(heads)

    def _having(self, kind: str, way: str) -> tuple[str, ...]:
        return tuple(
            tag for tag in having(self.job, kind, way) if tag not in having(self.job, kind, "in") or way == "in"
        )

    def _network(self) -> tuple[str, ...]:
        gear = [tag for tag, one in self.job.of(Equipment).items() if one.what in ("router", "switch")]
        return tuple(tag for tag in gear if tag in having(self.job, "ethernet", "in"))

    def _branch(
        self, tag: str, link: Link | None, kinds: tuple[str, ...], inward: bool, seen: frozenset[str]
    ) -> Branch:
        mine = [each for each in self.left if each.port in kinds and self._near(each, tag, inward)]
        self.left = [each for each in self.left if each not in mine]
        under = []
        for each in mine:
            far = self._far(each, tag)
            if far and far not in seen | {tag}:
                under.append(self._branch(far, each, kinds, inward, seen | {tag}))
            else:
                under.append(Branch(far, each.cable, self._joint(each) + self._at(each, tag, far)))
        return Branch(
            tag, link.cable if link else "", (self._joint(link) if link else "") + self._name(tag), tuple(under)
        )

    def _near(self, link: Link, tag: str, inward: bool) -> bool:
        if link.port == "ethernet":
            return tag in (link.source, link.sink)
        return tag == (link.sink if inward else link.source)

    def _far(self, link: Link, tag: str) -> str:
        return link.sink if link.source == tag else link.source

    def _at(self, link: Link, near: str, far: str) -> str:
        """What is at the far end of a link: a device, or the place where none is noted."""
        if far:
            return self._name(far)
        cable = self.job.of(Cable)[link.cable]
        end = cable.end if near in devices_at(self.job, cable.start) else cable.start
        return f"{self._name(end)}, no equipment entered there" if end else "not known"

    def _why_alone(self, tag: str) -> str:
        """Why nothing hangs on a device: no cable, or cables that found no port."""
        kinds = {port.kind for port in ports(self.job)[tag]}
        ends = {each: self.job.of(Cable)[each] for each, misfit in self.misfits.items() if misfit.port in kinds}
        stuck = [
            each
            for each, cable in ends.items()
            if tag in (*devices_at(self.job, cable.start), *devices_at(self.job, cable.end))
        ]
        return f"{listed(stuck)} {'has' if len(stuck) == 1 else 'have'} no port" if stuck else "no signal cables yet"

    def _joint(self, link: Link) -> str:
        turned = ", wrong way round" if link.cable in self.misfits else ""
        return f"{link.cable} {LINK_WORD.get(link.port, link.port)}{turned}: "

    def _loose(self, link: Link) -> str:
        cable = self.job.of(Cable)[link.cable]
        ends = (link.source or cable.start or "not known", link.sink or cable.end or "not known")
        names = [self._name(each) if self.job.get(each) else each for each in ends]
        return f"{self._joint(link)}{names[0]} to {names[1]}"

    def _name(self, tag: str) -> str:
        name = getattr(self.job.get(tag), "name", "")
        return f"{tag} {name}".strip()


def _tags(branch: Branch) -> Iterator[str]:
    yield branch.tag
    for each in branch.under:
        yield from _tags(each)


class Twig(msgspec.Struct, frozen=True):
    """One line of the tree as it is drawn."""

    head: str
    """The heading it stands under; its own text for a heading."""
    lead: str
    """The rules in front of it."""
    branch: Branch


def twigs(branches: tuple[Branch, ...]) -> Iterator[Twig]:
    """The tree line by line, drawn with rules."""
    for head in branches:
        yield Twig(head.text, "", head)
        yield from _under(head.text, head.under, "")


def _under(head: str, branches: tuple[Branch, ...], lead: str) -> Iterator[Twig]:
    for at, each in enumerate(branches):
        last = at == len(branches) - 1
        yield Twig(head, f"{lead}{'└─ ' if last else '├─ '}", each)
        yield from _under(head, each.under, lead + ("   " if last else "│  "))


def tree_lines(branches: tuple[Branch, ...]) -> list[str]:
    """The tree as lines of text."""
    return [each.lead + each.branch.text for each in twigs(branches)]
