"""The walk on the screen: one item large, with its piece of the drawing, and one key for each thing to do with it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widgets import Input, Static

from store.book.pictures import PHOTOS, look
from store.measure.text import clean
from store.records.whole import Job
from store.rules.core.checks import closed_line
from store.rules.core.proof import FOR_MANY, kinds_for
from store.rules.core.wording import day_short, plural
from store.rules.drawing.elevation import Scene, kin, scene
from store.rules.gate.by_trade import trade_title
from store.rules.wall.places import wall_of
from tui.acts.photos.pictures import photos_of
from tui.acts.sign_off import pictures_beside
from tui.acts.walking import FOR_ONE, Walking
from tui.drawing.wall_drawing import WallDrawing
from tui.shared.bars import bar
from tui.shared.text import content
from tui.view.desk import Desk
from tui.widgets.half_blocks import HalfBlocks
from tui.widgets.lines import ChoiceLine
from tui.widgets.typed import TypedLine
from tui.widgets.window import Window

if TYPE_CHECKING:
    from typing import Any

KEYS = (
    ("c", "Done"), ("C", "Alike"), ("n", "Not needed"), ("s", "Skip"), ("left", "Prev"), ("p", "Photo"),
    ("u", "Undo"), ("b", "Who"), ("v", "Order"), ("escape", "Back"),
)  # fmt: skip
TYPING = (("enter", "Save"), ("escape", "Cancel"))
PICKING = (
    ("right", "Next photo"),
    ("left", "Photo before"),
    ("enter", "Done with it"),
    ("C", "Alike"),
    ("escape", "Cancel"),
)
NEAR = 2.0
"""How much larger a thing is shown than its whole wall, so that its neighbors are still seen."""
MOST_PICTURES = 60


class Card(Static, can_focus=True):
    """What the item is; it has the keys while nothing is typed."""


class Piece(WallDrawing, can_focus=False):
    """The drawing, only to look at."""


class Walk(Window[None]):
    """Rough-in items one after the other."""

    CSS = """
    Walk {
        & > Vertical { width: 100%; height: 100%; background: $surface; }
        #bar { height: 1; background: $panel; color: $foreground; text-style: bold; padding: 0 1; }
        Card { height: auto; max-height: 9; padding: 0 1; }
        #look { height: 1fr; }
        #photo { width: 50%; display: none; }
        #look.-photo #photo { display: block; }
        #look.-only #piece { display: none; }
        #look.-only #photo { width: 1fr; }
        #ask { height: auto; display: none; padding: 0 1; }
        #ask.-on { display: block; }
        #asked { color: $muted; }
        #said { height: 1; text-style: bold; padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c,enter", "done", "Done"),
        Binding("C", "done(True)", "Alike: done with all of its kind and trade"),
        Binding("n", "not_needed", "Not needed"),
        Binding("s,right", "forward", "Skip"),
        Binding("left", "back", "One back"),
        Binding("p", "photo", "Photo"),
        Binding("o", "reopen", "Reopen"),
        Binding("u,ctrl+z", "undo", "Undo"),
        Binding("b", "who", "Who signs off, and when"),
        Binding("v", "turn", "Order: along the wall, or by trade"),
        Binding("question_mark,f1", "help", "Help"),
        Binding("escape", "leave", "Leave"),
    ]

    def __init__(self, walking: Walking) -> None:
        super().__init__()
        self.walking = walking
        self._then: Callable[[str], None] | None = None
        """What the line that is asked for is given to."""
        self._pictures: list[str] = []
        """Pictures that are picked from; empty while none are."""
        self._picture = 0
        self._drawn: tuple[Job, str, Scene] | None = None

    def compose(self) -> ComposeResult:
        """From the progress down to the keys."""
        with Vertical():
            yield Static(id="bar")
            yield Card(id="card")
            with Horizontal(id="look"):
                yield Piece(id="piece")
                yield HalfBlocks(id="photo")
            with Vertical(id="ask"):
                yield Static(id="asked")
                yield TypedLine(compact=True, id="line")
            yield Static(id="said")
            yield ChoiceLine(bare=True, before=lambda: None, id="walk-keys")

    def on_mount(self) -> None:
        """Show the first item."""
        self.query_one(Card).focus()
        self._show()

    # --- showing ---

    def _show(self) -> None:
        walk = self.walking
        done, total = walk.done
        job = walk.desk.state.job
        who = f"{walk.name}, {day_short(job, walk.day)}"
        self.query_one("#bar", Static).update(
            content(f"{bar(done, total, 16)} {done} of {total} done · {walk.by} · {who}")
        )
        self.query_one(Card).update(content(self._words()))
        self.query_one("#said", Static).update(content(walk.said))
        keys = TYPING if self._then is not None else PICKING if self._pictures else KEYS
        self.query_one("#walk-keys", ChoiceLine).show(keys)
        self._look()

    def _words(self) -> str:
        """The item in a few lines: what, who, where, what it needs; why it is open again."""
        item = self.walking.item
        if item is None:
            done, total = self.walking.done
            return f"No items left to walk: {plural(total, 'item')}, {done} done. Esc = back to the lists"
        check = item.check
        lines = [f"{'□' if item.open else '✓'} {item.key}  {check.full}"]
        lines.append("  ".join(each for each in (trade_title(check.trade), check.where) if each))
        if item.open and item.why_open != "open":
            lines.append(f"Reopened: {item.why_open}")
        if not item.open and item.closing is not None:
            said = closed_line(item.closing, self.walking.desk.state.job.manner.day_first)
            return "\n".join([*lines, said, "o = reopen  s = on to the next"])
        if check.wants:
            lines.append(f"Needs: {check.wants}")
        lines.append(f"Proof: {self.walking.asked()}")
        return "\n".join(lines)

    def _look(self) -> None:
        """The piece of the wall that the item is about, and a photo of it where there is one."""
        walk = self.walking
        job, tag = walk.desk.state.job, walk.subject
        piece, look_at = self.query_one(Piece), self.query_one("#look")
        wall = wall_of(job, tag) if tag else ""
        ends = [str(getattr(job.get(tag), end, "")) for end in ("start", "end")] if tag else []
        wall = wall or next((found for end in ends if end and (found := wall_of(job, end))), "")
        if wall or tag.startswith("W"):
            piece.show(self._scene(job, wall or tag), tag, kin(job, tag))
            piece.look_near(tag, NEAR)
        piece.visible = bool(wall or tag.startswith("W"))
        shown = self._shown_picture()
        look_at.set_class(shown is not None, "-photo")
        look_at.set_class(bool(self._pictures), "-only")
        photo = self.query_one(HalfBlocks)
        if shown != photo.path:
            photo.show(shown)

    def _scene(self, job: Job, wall: str) -> Scene:
        """The elevation of a wall; the one drawn last serves as long as job and wall are the same."""
        if self._drawn is None or self._drawn[0] is not job or self._drawn[1] != wall:
            self._drawn = (job, wall, scene(job, wall))
        return self._drawn[2]

    def _shown_picture(self) -> Path | None:
        """The picture that is picked from just now; else, where there is room, the newest one of the thing."""
        desk, tag = self.walking.desk, self.walking.subject
        if self._pictures:
            return Path(look(self._pictures[self._picture], desk.folder).path)
        photos = photos_of(desk.state.job, tag) if tag and self.size.width >= 120 else ()
        seen = look(photos[-1].file, desk.folder) if photos else None
        return Path(seen.path) if seen is not None and not seen.why else None

    # --- typing ---

    def _ask(self, question: str, then: Callable[[str], None], start: str = "") -> None:
        """Ask for a line; it is given over with Enter."""
        self._then = then
        self.query_one("#asked", Static).update(content(question))
        self.query_one("#ask").add_class("-on")
        line = self.query_one("#line", TypedLine)
        line.value = clean(start)
        line.focus()
        line.select_all()
        self._show()

    @on(Input.Submitted)
    def typed(self, event: Input.Submitted) -> None:
        """Give the line to who asked for it."""
        event.stop()
        then, text = self._then, event.value.strip()
        if then is None:
            return
        if not text:
            self.walking.said = "Type a few words first."
            self._show()
            return
        self._stop_asking()
        then(text)
        self._show()

    def _stop_asking(self) -> None:
        self._then = None
        self.query_one("#ask").remove_class("-on")
        self.query_one(Card).focus()

    # --- keys ---

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While something is typed, or a photo picked, other keys do nothing."""
        if self._then is not None:
            return action == "leave"
        if self._pictures:
            return action in ("leave", "forward", "back", "done", "help")
        return True

    def action_done(self, alike: bool = False) -> None:
        """Ask for the proof of this item, or of all of its like if there are any; a picture in sight is it."""
        walk, item = self.walking, self.walking.item
        if item is None or not item.open:
            walk.said = "Signed off already. s = on to the next" if item else ""
            self._show()
            return
        name = self._pictures[self._picture] if self._pictures else ""
        self._pictures = []
        if name and not alike:
            walk.sign_off(name)
            self._show()
            return
        if alike and not FOR_MANY & {*kinds_for(item.check)}:
            walk.said = FOR_ONE
            self._show()
            return
        group = walk.alike() if alike else [item]
        many = f"All {len(group)} at once, {' '.join(each.key for each in group)[:200]}\n" if len(group) > 1 else ""
        self._ask_proof(f"{many}{walk.asked()}", name or walk.suggested(), alike)

    def _ask_proof(self, question: str, start: str, alike: bool) -> None:
        def given(words: str) -> None:
            if not self.walking.sign_off(words, alike=alike) and self.walking.item is not None:
                said, self.walking.said = self.walking.said, ""  # whole above the line, not cut below it
                self._ask_proof(f"{said}\n{self.walking.asked()}", words, alike)

        self._ask(question, given, start)

    def action_not_needed(self) -> None:
        """Ask why it is not needed, and who says so."""
        walk, item = self.walking, self.walking.item
        if item is None or not item.open:
            return

        def why(reason: str) -> None:
            if kinds_for(item.check) == ("inspection",):
                self._ask("Which office said so, and who there?", lambda office: given(reason, walk.name, office))
            else:
                self._ask("Who says so?", lambda name: given(reason, name, ""), walk.name)

        def given(reason: str, name: str, office: str) -> None:
            walk.not_needed(reason, name, office)

        self._ask(f"Why is {item.key} not needed?", why)

    def action_photo(self) -> None:
        """Show the pictures beside the job, to sign off with one of them."""
        walk, item = self.walking, self.walking.item
        if item is None:
            return
        if item.open and "photo" not in kinds_for(item.check):
            walk.said = f"A photo won't do here. Needs {walk.asked()}"
        elif not item.open:
            walk.said = "Signed off already. s = on to the next"
        else:
            folder = walk.desk.folder
            self._pictures = [f"{PHOTOS}/{name}" for name in pictures_beside(folder, MOST_PICTURES)]
            self._picture = 0
            walk.said = self._picture_words() or f"No pictures in {folder / PHOTOS} yet. c = type the file of one"
        self._show()

    def _picture_words(self) -> str:
        if not self._pictures:
            return ""
        return f"{self._picture + 1} of {len(self._pictures)}: {self._pictures[self._picture]}"

    def action_forward(self) -> None:
        """The next open item; of the pictures the next."""
        self._step(1)

    def action_back(self) -> None:
        """The item before; of the pictures the one before."""
        self._step(-1)

    def _step(self, by: int) -> None:
        if self._pictures:
            self._picture = (self._picture + by) % len(self._pictures)
            self.walking.said = self._picture_words()
        else:
            self.walking.said = ""
            self.walking.step(by)
        self._show()

    def action_reopen(self) -> None:
        """Open an item again."""
        self.walking.reopen()
        self._show()

    def action_undo(self) -> None:
        """Undo the last change."""
        self.walking.undo()
        self._show()

    def action_turn(self) -> None:
        """The other order."""
        self.walking.turn()
        self._show()

    def action_who(self) -> None:
        """Ask who signs off, and when it was; both stay until they are changed."""

        def named(name: str) -> None:
            self.walking.sign_as(name)
            self._ask("On which day?", self.walking.sign_on, self.walking.day.isoformat())

        self._ask("Who signs off?", named, self.walking.name)

    def action_help(self) -> None:
        """What each key does."""
        lines = [f"  {key.key:18} {key.description}" for key in self.BINDINGS if isinstance(key, Binding)]
        self.walking.desk.read("Walk", "\n".join([ABOUT, "", *lines]))

    def action_leave(self) -> None:
        """Leave the line, the pictures, or the walk; it goes on from here the next time."""
        if self._then is not None:
            self.walking.said = ""
            self._stop_asking()
        elif self._pictures:
            self._pictures = []
            self.walking.said = ""
        else:
            self.dismiss(None)
            return
        self._show()

    def on_resize(self, event: events.Resize) -> None:
        """The photo comes and goes with the room."""
        if self.is_mounted:
            self.call_after_refresh(self._show)


ABOUT = (
    "One rough-in item at a time. c = done: type its proof, or take what was typed last with Enter. C = one proof for "
    "all of its kind and trade, where one can stand for several. n = not needed: why, and who says so. p = pick one of "
    "the pictures beside the job. The walk remembers where it was left, who signs off and what was written last."
)


def walk(app: App[Any], desk: Desk, only: list[str], start: str, then: Callable[[], None]) -> None:
    """Walk through these items, or through all where none are named; `then` follows when it was left."""
    app.push_screen(Walk(Walking(desk, only, start)), lambda _: then())
