"""The wall on the screen: what the drawing shows, and moving things on it with the findings changing as they go."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.message import Message

from store.book.changes import edit
from store.measure.errors import StudbookError
from store.measure.length import INCH_NM
from store.records.access import Photo
from store.records.gate import Closing
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.broken import change_words
from store.rules.core.findings import Finding, findings
from store.rules.drawing.cuts import plan, section, through
from store.rules.drawing.elevation import Scene, kin, scene
from store.rules.drawing.moving import Movable, movable, move_words, moved, snapped, step_nm, stepped, view_for
from store.rules.gate.gate import STAGES
from store.rules.gate.mock_up import AGREED
from store.rules.photo.places import photo_places
from store.rules.wall.places import wall_of
from tui.drawing.legend import Legend
from tui.drawing.moving_drawing import MovingDrawing
from tui.screen.desk import WorkDesk
from tui.screen.wall.hands import NOTHING
from tui.screen.wall.wall_windows import ask_place, help_text, show_unplaced
from tui.view.view import name_of

MOVE_HELP = "arrows = by a step  Shift+arrows = fine  click = there  Enter = keep  Esc = cancel"
CUT_NM = 48 * INCH_NM
"""Where the plan is cut when nothing is selected: 48 in, about the middle of a wall."""
VIEWS = ("front", "plan", "section")
"""As they come in turn."""


class WallPane(Vertical):
    """Shows the wall of a record on the drawing, and moves what is selected there."""

    class Left(Message):
        """The person is done with the drawing."""

    class Turned(Message):
        """A move began or ended, or the drawing got or lost the keys: other keys work now."""

    def __init__(self, desk: WorkDesk) -> None:
        super().__init__(id="wall")
        self._desk = desk
        self._drawing = MovingDrawing()
        self._wall = ""
        self._tag = ""
        self._seen: tuple[Job, str, Scene] | None = None
        self._view = 0
        """0 from the room, 1 from above, 2 cut upright."""
        self._was: Movable | None = None
        self._now: Movable | None = None
        self._wants_keys = False

    def compose(self) -> ComposeResult:
        """The drawing."""
        yield self._drawing

    def on_mount(self) -> None:
        """The drawing is there now: it takes the keys that were meant for it."""
        if self._wants_keys:
            self._drawing.focus()

    def take_keys(self) -> None:
        """Keys go to the drawing; as soon as it is there, since what is not on a screen yet cannot have them."""
        self._wants_keys = True
        if self._drawing.is_attached:
            self._drawing.focus()

    @property
    def has_keys(self) -> bool:
        """True while keys go to the drawing."""
        return (self._wants_keys and self.screen.has_class("-wall")) or self._drawing.has_focus

    @property
    def moving(self) -> bool:
        """True while something is being moved."""
        return self._was is not None

    @property
    def selected(self) -> str | None:
        """The tag that is lit up as selected; None when nothing that is drawn is."""
        return self._drawing.in_sight or None

    def show(self, tag: str) -> None:
        """Show the wall that a record is on, the record and its kin lit up; else the wall shown last."""
        if self._was is not None:
            return
        job = self._desk.state.job
        walls = list(job.of(Wall))
        wall = tag if tag in walls else _wall_of(job, tag)
        self._wall = wall or (self._wall if self._wall in walls else next(iter(walls), ""))
        self._tag = tag
        self._draw(job)

    def look_again(self) -> None:
        """The job changed, by undo or by somebody else: draw what is shown as it is now."""
        self.show(self._tag if self._desk.state.job.get(self._tag) else "")

    def _draw(self, job: Job) -> None:
        if not self._wall:
            return
        self._drawing.show(self._picture_of(job), self._tag, kin(job, self._tag))

    def _scene(self, job: Job) -> Scene:
        """The elevation of the wall; the one drawn last serves as long as the job and the wall are the same."""
        if self._seen is None or self._seen[0] is not job or self._seen[1] != self._wall:
            self._seen = (job, self._wall, scene(job, self._wall))
        return self._seen[2]

    def _picture_of(self, job: Job) -> Scene:
        """The wall in the view that is chosen, cut through the middle of what is selected."""
        front = self._scene(job)
        if not self._view:
            return front
        upright, shape = VIEWS[self._view] == "section", front.get(self._tag)
        at = through(job, self._wall, self._tag, upright=upright)
        if at is None and shape is not None:
            at = shape.centre[0 if upright else 1]
        if upright:
            return section(job, self._wall, front.width // 2 if at is None else at)
        return plan(job, self._wall, CUT_NM if at is None else at)

    @on(MovingDrawing.Chosen)
    def choose(self, event: MovingDrawing.Chosen) -> None:
        """Something was selected on the drawing: it lights up with its kin, and its name is said."""
        self._tag = event.tag
        self._draw(self._desk.state.job)
        record = self._desk.state.job.get(event.tag)
        self._desk.say(f"{event.tag}  {name_of(record)}" if record else event.tag)

    @on(MovingDrawing.Opened)
    def open_page(self, event: MovingDrawing.Opened) -> None:
        """The page of what is selected."""
        self._desk.show_page(event.tag)

    # --- moving ---

    @on(MovingDrawing.Asked)
    def asked(self, event: MovingDrawing.Asked) -> None:
        """Begin, keep, leave or turn; or a window."""
        desk, drawing = self._desk, self._drawing
        does: dict[str, Callable[[], None]] = {
            "begin": self._begin,
            "keep": self._keep,
            "leave": self._stop,
            "turn": self._turn,
            "type": self._type,
            "legend": lambda: desk.show_window(Legend(drawing)),
            "unplaced": lambda: show_unplaced(desk, drawing.scene),
            "nothing": lambda: desk.say(NOTHING, bad=True),
            "help": lambda: desk.read("The drawing", help_text(self.moving)),
        }
        does[event.what]()

    def _type(self) -> None:
        """Begin to move where nothing is moved yet, and ask for the place; Enter then keeps it as any other move."""
        if self._now is None:
            self._begin()
        if self._now is not None:
            ask_place(self._desk, self._now, self._take)

    @on(MovingDrawing.PutAt)
    def put_at(self, event: MovingDrawing.PutAt) -> None:
        """The middle of the thing goes where the person clicked, to whole steps."""
        shape = self._drawing.scene.get(self._drawing.selected) if self._drawing.scene is not None else None
        if self._now is None or shape is None:
            return
        if self._view:
            self._desk.say(f"{self._now.tag} is seen from the side. Move it with the arrows, or = to type its place")
            return
        step = step_nm(self._desk.state.job.settings.metric, False)
        right, up = event.x_nm - shape.centre[0], event.y_nm - shape.centre[1]
        self._take(moved(self._now, round(right / step) * step, round(up / step) * step))

    def _turn(self) -> None:
        self._view = (self._view + 1) % len(VIEWS)
        self._draw(self._desk.state.job)

    def _begin(self) -> None:
        try:
            self._was = self._now = movable(self._desk.state.job, self._drawing.selected)
        except StudbookError as error:
            self._desk.refuse(error)
            return
        self._view = VIEWS.index(view_for(self._was))
        self._drawing.moving = True
        self.post_message(self.Turned())
        self._tag = self._was.tag
        if self._view:
            self._draw(self._desk.state.job)
        self._desk.say(f"Moving {self._was.tag}: {MOVE_HELP}")

    @on(MovingDrawing.Nudged)
    def nudged(self, event: MovingDrawing.Nudged) -> None:
        """Go by a step."""
        if self._now is not None:
            step = step_nm(self._desk.state.job.settings.metric, event.fine)
            job = self._desk.state.job.having(self._now)
            new = stepped(job, self._now, event.right * step, event.up * step)
            if new == self._now:
                self._desk.say(f"{new.tag} goes no further that way: its wall, floor or ceiling ends there", bad=True)
            else:
                self._take(new)

    @on(MovingDrawing.Snapped)
    def snap(self, event: MovingDrawing.Snapped) -> None:
        """Go to a stud, a neighbour or the centre."""
        if self._now is None:
            return
        try:
            self._take(snapped(self._desk.state.job.having(self._now), self._now, event.to))
        except StudbookError as error:
            self._desk.say(error.sentence, bad=True)

    def _take(self, new: Movable) -> None:
        """Draw the thing at its new place, and say what that would break or mend."""
        if self._was is None:
            return
        self._now = new
        before = self._desk.state
        job = before.job.having(new)
        self._wall = wall_of(job, new.tag) or self._wall
        self._draw(job)
        words = move_words(self._was, new, job.settings.metric) or "where it was"
        self._desk.say(f"{new.tag} {words}. {_difference(before.found, findings(job))}")

    def _keep(self) -> None:
        was, now = self._was, self._now
        if was is None or now is None or was == now:
            self._stop()
            return
        words = move_words(was, now, self._desk.state.job.settings.metric)

        def save(reason: str) -> None:
            done = self._desk.act(f"Move {was.tag} {words}", [edit(was, now)], reason)
            self._end()
            if done:
                self._desk.say(f"Moved {was.tag} {words}. u = undo")

        job = self._desk.state.job
        if AGREED in job.of(Closing) or STAGES.index(self._desk.state.standing.stage) >= STAGES.index("Mock-up"):
            self._desk.ask(
                f"Why move {was.tag} {words}?",
                save,
                about="The mock-up was agreed. What did it show?",
            )
        else:
            save("")

    def _stop(self) -> None:
        if self._was is None:
            self.post_message(self.Left())
            return
        self._end()
        self._desk.say("Not moved")

    def _end(self) -> None:
        self._was = self._now = None
        self._drawing.moving = False
        self._wall = wall_of(self._desk.state.job, self._tag) or self._wall
        self.post_message(self.Turned())
        self._draw(self._desk.state.job)


def _wall_of(job: Job, tag: str) -> str:
    """The wall that a thing or a photo is on; empty when none is known."""
    if tag in job.of(Photo):
        return photo_places(job).get(tag, ("",))[0]
    return wall_of(job, tag) if job.get(tag) else ""


def _difference(before: list[Finding], after: list[Finding]) -> str:
    """What a move would solve, and the gravest new problem."""
    return change_words(before, after) or "No new problems."
