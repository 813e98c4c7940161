"""A wall drawing alone on a screen, for its tests."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.pilot import Pilot

from store.records.whole import Job
from store.rules.drawing.elevation import kin, scene
from tests.rules.drawing.test_elevation import MEDIA, job_of
from tui.drawing.wall_drawing import WallDrawing
from tui.screen.themes import dress

JOB = job_of(*MEDIA)
SCENE = scene(JOB, "W1")
SIZES = [(80, 24), (140, 44)]
WAYS = {"left": (-1, 0), "right": (1, 0), "up": (0, 1), "down": (0, -1)}


class Stand(App[None]):
    """A screen that holds nothing but the drawing, and answers it as a view would."""

    def __init__(self, job: Job = JOB, theme: str = "dark") -> None:
        super().__init__()
        dress(self, theme)
        self.job = job
        self.heard: list[tuple[str, str]] = []

    def compose(self) -> ComposeResult:
        yield WallDrawing(id="drawing")

    def on_mount(self) -> None:
        self.drawing.show(scene(self.job, "W1"))
        self.drawing.focus()

    @property
    def drawing(self) -> WallDrawing:
        return self.screen.query_one(WallDrawing)

    def on_wall_drawing_chosen(self, message: WallDrawing.Chosen) -> None:
        self.heard.append(("chosen", message.tag))
        assert message.control.scene is not None
        message.control.show(message.control.scene, message.tag, kin(self.job, message.tag))

    def on_wall_drawing_opened(self, message: WallDrawing.Opened) -> None:
        self.heard.append(("opened", message.tag))

    def lines(self) -> list[str]:
        """What is on the screen."""
        strips = [self.drawing.render_line(row) for row in range(self.drawing.size.height)]
        return ["".join(segment.text for segment in strip) for strip in strips]


async def press(pilot: Pilot[None], *keys: str) -> None:
    for key in keys:
        pilot.app.simulate_key(key)
        await pilot.pause(0)
    await pilot.pause()


# --- the picture ---
