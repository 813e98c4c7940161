"""The wall on paper: a scene as one self-contained SVG, to scale, with dimensions in the owner's units.

Everything is told by sign, hatch, dash and word, never by colour alone, so it may be printed in black.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, pairwise
from math import inf

from store.measure.length import FOOT_NM, MM_NM, Length, show_length
from store.rules.drawing.cut_runs import WIRING
from store.rules.drawing.elevation import Block, Run, Scene, Shape, Spot
from templates.sheets.layout.cut_marks import RUN_PX, Passing, run_mark, tag_wordings, together
from templates.sheets.layout.hatches import GREY, HATCHES, INK, hatched
from templates.sheets.layout.marks import (
    BOX_PX,
    STYLE,
    Labels,
    box_sign,
    dimension,
    line_at,
    safe,
    text_at,
    width_of,
    wrapped,
)

CAUTION = "Planning aid. Local code and the manufacturer's instructions win."
WIDE_PX, HIGH_PX = 960.0, 620.0
"""The most the wall itself takes."""
PAPER_PX = {"plan": (1110.0, 650.0), "section": (790.0, 940.0)}
"""What goes on a sheet of its own in type of 7 pt: width and height of a cut, with all that is beside and below it."""
FOOT_PX, NOTE = 190.0, 80
"""About what scale bar, signs and the caution take; characters of a line of remarks."""
LEAST_PX = 60.0
EDGE_PX = 24.0
TITLE_PX = 64.0
ROW_PX = 22.0
"""Between two dimension lines."""
LINE_PX = 17.0
SIGN_STEP_PX = 20.0
"""Between the signs of things at one and the same place, upwards."""
LONGEST = 60
"""Characters of a name; the rest is cut."""
VIEW_WORDS = {
    "elevation": "Elevation, seen from the room",
    "plan": "Plan, seen from above",
    "section": "Section, seen from the left end",
}
BESIDE_PX = {"section": (110.0, 16.0), "plan": (0.0, 44.0)}
"""Room for names beside what is drawn, and above and below it: a wall that is cut is narrow."""
DIMENSIONED = ("openings", "build-outs")
DASHES = {"power": "", "signal": ' stroke-dasharray="6 3"'}


def svg(scene: Scene, metric: bool) -> str:
    """The scene as the text of an SVG file; lengths in millimetres when `metric`, else in feet and inches."""
    return _Sheet(scene, metric).drawn()


class _Sheet:
    """One drawing while it is being made."""

    def __init__(self, scene: Scene, metric: bool) -> None:
        self.scene, self.metric = scene, metric
        left, bottom, right, top = scene.extent
        openings = [each for each in scene.shapes if isinstance(each, Block) and each.layer in DIMENSIONED]
        self.rows = _grouped((each.x, each.width, each.tag) for each in openings)
        self.stands = _grouped((each.y, each.height, each.tag) for each in openings)
        aside, above = BESIDE_PX.get(scene.view, (0.0, 0.0))
        beside = EDGE_PX + ROW_PX * (len(self.stands) + 4) + self._name_room() + 2 * aside
        below = TITLE_PX + 2 * above + ROW_PX * (len(self.rows) + 2) + FOOT_PX + LINE_PX * self._note_lines()
        across, up = PAPER_PX.get(scene.view, (inf, inf))
        wide, high = min(WIDE_PX, max(across - beside, LEAST_PX)), min(HIGH_PX, max(up - below, LEAST_PX))
        self.scale = min(wide / max(right - left, MM_NM), high / max(top - bottom, MM_NM))
        self.left = EDGE_PX + 2 * ROW_PX
        self.x0 = self.left + aside - left * self.scale
        self.y0 = TITLE_PX + above + max(top, 0) * self.scale
        self.right = self.x0 + right * self.scale + aside
        self.bottom = self.y0 - min(bottom, 0) * self.scale + above
        self.labels = Labels(self.left, self.right)
        spots = [each for each in scene.shapes if isinstance(each, Spot) and each.layer in WIRING]
        self.bundles = together([(self.x(each.x), self.y(each.y), each) for each in spots])

    def x(self, nm: int) -> float:
        return self.x0 + nm * self.scale

    def y(self, nm: int) -> float:
        return self.y0 - nm * self.scale

    def length(self, nm: int) -> str:
        return show_length(Length(nm), self.metric)

    def drawn(self) -> str:
        """The whole file."""
        wide = max(self.right + ROW_PX * (len(self.stands) + 2) + self._name_room(), EDGE_PX * 2 + 640)
        parts = [self._title()]
        passing = {id(each) for _, _, each in chain.from_iterable(self.bundles)}
        parts += [self._shape(each) for each in self.scene.shapes if id(each) not in passing]
        if self.scene.width and self.scene.height:
            parts.append(self._wall())
            parts += [self._dimensions(), self._heights()]
        parts += [self._bundle(each) for each in self.bundles]
        parts += self._names()
        foot = self.bottom + ROW_PX * (len(self.rows) + 2)
        below, high = self._foot(foot, wide - 2 * EDGE_PX)
        what = safe(f"{self.scene.view.capitalize()} of {self.scene.wall} {self.scene.name}", LONGEST)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.0f} {high:.0f}" width="{wide:.0f}" '
            f'height="{high:.0f}" role="img"><title>{what}</title><style>{STYLE}</style>'
            f'<rect width="100%" height="100%" fill="#fff"/>{"".join(parts)}{below}</svg>\n'
        )

    def _note_lines(self) -> int:
        """About how many lines the remarks take."""
        listed = sum(len(each.label) + len(each.why) + 8 for each in self.scene.unplaced)
        return sum(len(each) // NOTE + 1 for each in self.scene.remarks) + listed // NOTE

    def _name_room(self) -> float:
        """What the names behind the widest dimension line take."""
        names = [width_of(_names(tags), 11) for tags in self.rows.values()]
        return max([60.0, *names])

    def _title(self) -> str:
        view = VIEW_WORDS[self.scene.view]
        name = self.scene.name if len(self.scene.name) <= LONGEST else self.scene.name[: LONGEST - 1] + "…"
        return text_at(EDGE_PX, 26, f"{self.scene.wall} {name}", 18, more=' font-weight="bold"') + text_at(
            EDGE_PX, 44, view
        )

    # --- what is drawn ---

    def _wall(self) -> str:
        path = "M" + "L".join(f"{self.x(x):.1f} {self.y(y):.1f}" for x, y in self.scene.corners) + "Z"
        return f'<path class="line" d="{path}" stroke-width="2.5"/>'

    def _shape(self, shape: Shape) -> str:
        if isinstance(shape, Block):
            kind = _hatch(shape)
            left, _, _, top = shape.extent
            if shape.outline:
                path = "M" + "L".join(f"{self.x(x):.1f} {self.y(y):.1f}" for x, y in shape.outline) + "Z"
                return f'<path class="line" d="{path}" stroke-width="1.5" stroke-dasharray="14 3"/>'
            return hatched(kind, self.x(left), self.y(top), shape.width * self.scale, shape.height * self.scale)
        if isinstance(shape, Run):
            return self._run(shape)
        (x, y), reach = self._spot(shape), BOX_PX + 3
        self.labels.take(x - reach, y - reach, x + reach, y + reach)
        return box_sign(shape.kind, x, y, shape.new)

    def _spot(self, shape: Spot) -> tuple[float, float]:
        """Where a sign is drawn: at its place, or above those that are drawn there already."""
        if shape.layer != "photos":
            return self.x(shape.x), self.y(shape.y)
        there = [each.tag for each in self.scene.shapes if isinstance(each, Spot) and each.centre == shape.centre]
        return self.x(shape.x), self.y(shape.y) - there.index(shape.tag) * SIGN_STEP_PX

    def _run(self, shape: Run) -> str:
        path = "M" + "L".join(f"{self.x(x):.1f} {self.y(y):.1f}" for x, y in shape.points)
        if shape.layer == "raceways":
            return (
                f'<path class="line" d="{path}" stroke-width="8"/>'
                f'<path d="{path}" fill="none" stroke="#fff" stroke-width="6"/>'
            )
        return f'<path class="line" d="{path}" stroke-width="1.5"{DASHES.get(shape.kind, "")}/>'

    # --- names ---

    def _names(self) -> Iterator[str]:
        """The labels: blocks that have one good place first, runs that can be named anywhere last."""
        turns = (
            "openings", "equipment", "panels", "obstacles", "boxes", "photos", "build-outs", "finishes", "raceways",
            "cables",
        )  # fmt: skip
        for layer in turns:
            for shape in self.scene.shapes:
                passing = isinstance(shape, Spot) and layer in WIRING  # named with its bundle
                if shape.tag and shape.layer == layer and not passing:
                    yield self._name(shape)

    def _bundle(self, bundle: Sequence[Passing]) -> str:
        """Runs that pass through the cut close to one another, and their tags together."""
        marks = "".join(run_mark(x, y, raceway=each.layer == "raceways") for x, y, each in bundle)
        for x, y, _ in bundle:
            self.labels.take(x - RUN_PX, y - RUN_PX, x + RUN_PX, y + RUN_PX)
        low, high, y = bundle[0][0], bundle[0][0], bundle[0][1]
        for x, _, _ in bundle:
            low, high = min(low, x), max(high, x)
        offs = range(0, 120, 8)
        places = [(high + RUN_PX + 4 + off, y + 4, "start", 240.0) for off in offs]
        places += [(low - RUN_PX - 4 - off, y + 4, "end", 240.0) for off in offs]
        if self.scene.view == "plan":
            over = [((low + high) / 2, self.y(self.scene.height) - 5 - row, "middle", 240.0) for row in (0, 13, 26)]
            places = [*over, ((low + high) / 2, y - RUN_PX - 4, "middle", 240.0), *places]
        return marks + self.labels.put(tag_wordings([each.tag for _, _, each in bundle]), places, 11)

    def _name(self, shape: Shape) -> str:
        label = shape.label if len(shape.label) <= LONGEST else shape.label[: LONGEST - 1] + "…"
        wordings = [f"{shape.tag} {label}", *(f"{shape.tag} {label[:cut]}…" for cut in (18, 9) if len(label) > cut)]
        if isinstance(shape, Block):
            return self.labels.put([*wordings, shape.tag], list(self._places(shape)), 12)
        if isinstance(shape, Spot):
            (x, y), off = self._spot(shape), BOX_PX + 5
            beside = [(x + off, y + 4, "start", 170.0), (x - off, y + 4, "end", 170.0)]
            beside += [(x, y - off - 2, "middle", 170.0), (x, y + off + 10, "middle", 170.0)]
            beside += [(x + off, y - off, "start", 170.0), (x - off, y + off + 8, "end", 170.0)]
            return self.labels.put([*wordings, shape.tag], beside, 11)
        return self.labels.put([shape.tag], list(self._along(shape)), 11)

    def _places(self, shape: Block) -> Iterator[tuple[float, float, str, float]]:
        left, bottom, right, top = shape.extent
        x1, x2, y1, y2 = self.x(left), self.x(right), self.y(top), self.y(bottom)
        room, middle = x2 - x1 - 8, (x1 + x2) / 2
        rows = [y1 + 15 + LINE_PX * row for row in range(int(max(y2 - y1 - 6, 0) // LINE_PX))]
        if shape.layer != "openings":
            rows.sort(key=lambda row: abs(row - (y1 + y2) / 2 - 4))
        yield from ((x1 + 4, row, "start", room) for row in rows if shape.layer == "openings")
        yield from ((middle, row, "middle", room) for row in rows if shape.layer != "openings")
        yield from ((middle, y1 - 4, "middle", 200.0), (middle, y2 + 13, "middle", 200.0))
        yield from ((x2 + 4, (y1 + y2) / 2 + 4, "start", 200.0), (x1 - 4, (y1 + y2) / 2 + 4, "end", 200.0))

    def _along(self, shape: Run) -> Iterator[tuple[float, float, str, float]]:
        for part in (4, 2, 6, 1, 7):
            for a, b in [(shape.centre, shape.centre), *pairwise(shape.points)]:
                x, y = (
                    (self.x(a[0]) * (8 - part) + self.x(b[0]) * part) / 8,
                    (self.y(a[1]) * (8 - part) + self.y(b[1]) * part) / 8,
                )
                yield from ((x + 4, y - 5, "start", 60.0), (x - 4, y - 5, "end", 60.0), (x + 4, y + 13, "start", 60.0))

    # --- dimensions ---

    def _dimensions(self) -> str:
        """Below: left and width of each opening, one line each, and the whole width."""
        parts = []
        for row, ((start, size), tags) in enumerate(self.rows.items(), 1):
            parts.append(self._level(row, sorted({0, start, start + size}), _names(tags)))
        parts.append(self._level(len(self.rows) + 1, [0, self.scene.width], "overall"))
        return "".join(parts)

    def _level(self, row: int, stops: Sequence[int], name: str) -> str:
        y = self.bottom + ROW_PX * row
        ends = [line_at(self.x(at), self.y(0) + 3, self.x(at), y + 6, 0.4, GREY) for at in stops]
        texts = [self.length(b - a) for a, b in pairwise(stops)]
        line = dimension([self.x(at) for at in stops], texts, name)
        return f'{"".join(ends)}<g transform="translate(0 {y:.1f})">{line}</g>'

    def _heights(self) -> str:
        """At the right: bottom and height of each opening; at the left: the whole height, as it is there."""
        parts = [self._upright(self.left - ROW_PX, self.left - 3, [0, self.scene.ceiling[0][1]], ""), *self._bends()]
        for number, ((start, size), tags) in enumerate(self.stands.items(), 1):
            x = self.right + ROW_PX * number
            parts.append(self._upright(x, self.x(self.scene.width) + 3, [0, start, start + size], _names(tags)))
        return "".join(parts)

    def _bends(self) -> Iterator[str]:
        """How high the ceiling is where it bends or steps, and at its right end; nothing for a level one."""
        if self.scene.view != "elevation" or self.scene.is_square:
            return
        for x, y in self.scene.ceiling[1:]:
            at, over = self.x(x), self.y(y) - 5
            places = [(at, over - step, anchor, 90.0) for step in (0, 13, 26) for anchor in ("middle", "start", "end")]
            yield self.labels.put([f"ceiling {self.length(y)}", self.length(y)], places, 11)

    def _upright(self, x: float, wall: float, stops: Sequence[int], name: str) -> str:
        outward = 6 if x > wall else -6
        ends = [line_at(wall, self.y(at), x + outward, self.y(at), 0.4, GREY) for at in stops]
        texts = [self.length(b - a) for a, b in pairwise(stops)]
        line = dimension([at * self.scale for at in stops], texts, name)
        return f'{"".join(ends)}<g transform="translate({x:.1f} {self.y(0):.1f}) rotate(-90)">{line}</g>'

    # --- below the drawing ---

    def _foot(self, top: float, room: float) -> tuple[str, float]:
        """Legend, scale bar, remarks, what is not drawn, and the caution; with the height of the whole sheet."""
        parts, y = [self._bar(top)], top + 44
        x = EDGE_PX
        for sign, words, wide in self._legend():
            step = wide + 10 + width_of(words, 11) + 22
            if x + step > room and x > EDGE_PX:
                x, y = EDGE_PX, y + 24
            parts.append(f'<g transform="translate({x:.1f} {y:.1f})">{sign}{text_at(wide + 8, 4, words, 11)}</g>')
            x += step
        y += 30
        notes = list(self.scene.remarks)
        if self.scene.unplaced:
            listed = (f"{each.tag} {each.label[:LONGEST]} ({each.why})" for each in self.scene.unplaced)
            notes.append("Not drawn, not placed yet: " + "; ".join(listed) + ".")
        for note in notes:
            for line in wrapped(note, room, 11):
                parts.append(text_at(EDGE_PX, y, line, 11))
                y += LINE_PX
        parts.append(text_at(EDGE_PX, y + 8, CAUTION, 13, more=' font-weight="bold"'))
        return "".join(parts), y + 30

    def _bar(self, y: float) -> str:
        """The scale bar: four steps, the longest that take no more than a third of the wall."""
        unit = MM_NM * 250 if self.metric else FOOT_NM // 2
        step = unit
        while step * 2 * 12 <= max(self.scene.width, unit * 24) and step < 64 * unit:
            step *= 2
        parts = []
        for number in range(4):
            fill = INK if number % 2 == 0 else "#fff"
            x = EDGE_PX + number * step * self.scale
            parts.append(
                f'<rect x="{x:.1f}" y="{y:.1f}" width="{step * self.scale:.1f}" height="6" fill="{fill}" '
                f'stroke="{INK}" stroke-width=".8"/>'
            )
        for number in (0, 2, 4):
            at = EDGE_PX + number * step * self.scale
            parts.append(text_at(at, y + 18, self.length(step * number) if number else "0", 11, "middle"))
        return "".join(parts)

    def _legend(self) -> Iterator[tuple[str, str, float]]:
        """Sign, words and width of the sign for each kind that is drawn."""
        shapes = self.scene.shapes
        kinds = {_hatch(each) for each in shapes if isinstance(each, Block)}
        for name, (words, *_) in HATCHES.items():
            if name in kinds:
                yield hatched(name, 0, -8, 24, 16), words, 24
        boxes = {(each.kind, each.new) for each in shapes if isinstance(each, Spot) and each.layer not in WIRING}
        for kind, new in sorted(boxes):
            yield box_sign(kind, 10, 0, new), kind if new else f"{kind}, existing", 20
        ways = [each for each in shapes if isinstance(each, Run) and each.layer in ("cables", "raceways")]
        runs = {each.kind if each.layer == "cables" else "raceway" for each in ways}
        for kind in sorted(runs):
            layer = "raceways" if kind == "raceway" else "cables"
            path = f'<path class="line" d="M0 0H36" stroke-width="1.5"{DASHES.get(kind, "")}/>'
            if layer == "raceways":
                path = '<path class="line" d="M0 -4H36M0 4H36" stroke-width="1"/>'
            yield path, kind if layer == "raceways" else f"{kind} cable", 36
        for layer in sorted({each.layer for _, _, each in chain.from_iterable(self.bundles)}):
            yield run_mark(8, 0, raceway=layer == "raceways"), f"{layer[:-1]} through the cut", 16


def _grouped(openings: Iterator[tuple[int, int, str]]) -> dict[tuple[int, int], list[str]]:
    """The tags by place and size along one axis, so that openings in line share a dimension line."""
    found: dict[tuple[int, int], list[str]] = {}
    for start, size, tag in openings:
        found.setdefault((start, size), []).append(tag)
    return dict(sorted(found.items(), key=lambda each: (each[0][0] + each[0][1], each[0])))


def _names(tags: Sequence[str]) -> str:
    return ", ".join(tags)


def _hatch(shape: Block) -> str:
    """By what name a rectangle is hatched: its kind where that has a hatch of its own, else its layer."""
    return shape.kind if shape.layer == "studs" or shape.kind == "furniture" else shape.layer
