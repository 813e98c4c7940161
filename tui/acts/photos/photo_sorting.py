"""Photos from a phone, one by one: each is looked at and put to an item, an access panel or a place by one key."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, ClassVar

from textual import events, on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widgets import Static

from store.book.phone import Folder, Shot, folder_of, keep
from store.measure.errors import BadValue, StudbookError
from store.records.access import Photo
from store.rules.core.wording import date_text, plural
from tui.acts.photos.photo_places import Target, changes_of, of_thing, photo_values, targets
from tui.shared.text import content, fit
from tui.view.desk import SAME_LINE, Desk
from tui.widgets.half_blocks import HalfBlocks
from tui.widgets.hints import HintLine
from tui.widgets.window import Window

MOST_TOLD = 12
"""Files that cannot be shown and are named at the end."""
AT_ONCE = 9
"""Places that have a key of their own at a time."""
KEYS = (
    ("", "1-9 = file there"), ("plus", "more places"), ("slash", "any other"), ("w", "place on the wall"),
    ("enter", "same as last"), ("s", "skip"), ("left", "one back"), ("u", "undo"), ("escape", "done"),
)  # fmt: skip


class Sorting:
    """Which photo it is, and where the ones before went. Nothing here draws."""

    def __init__(self, desk: Desk, folder: Folder) -> None:
        self.desk, self.shots, self.unread = desk, folder.shots, folder.unread
        self.at = 0
        self.first = 0
        """Which of the places has the key 1."""
        self.last: Target | None = None
        self.put: list[int] = []
        """Numbers of the photos that were put somewhere, in order."""
        self.said = ""

    @property
    def shot(self) -> Shot | None:
        """The photo that is looked at; None behind the last."""
        return self.shots[self.at] if self.at < len(self.shots) else None

    def places(self) -> list[Target]:
        """All places, that of the last photo first: one takes several of the same thing."""
        rest = [each for each in targets(self.desk.state.job) if self.last is None or each.key != self.last.key]
        return [self.last, *rest] if self.last is not None else rest

    def offered(self) -> list[Target]:
        """The places that have a key now."""
        return self.places()[self.first : self.first + AT_ONCE]

    def more(self) -> None:
        """Give the keys to the next places; after the last to the first."""
        self.first = self.first + AT_ONCE if self.first + AT_ONCE < len(self.places()) else 0

    def step(self, by: int) -> None:
        """Go to another photo."""
        self.at = min(max(self.at + by, 0), len(self.shots))
        self.first = 0

    def put_to(self, target: Target) -> None:
        """Copy the photo beside the job and put it to a place; what is refused is said, and the photo stays."""
        shot, job = self.shot, self.desk.state.job
        if shot is None:
            return
        try:
            file = keep(shot, self.desk.folder)
        except BadValue as error:
            self.said = f"{shot.path.name}: {error}"
            return
        changes = changes_of(job, target.key, file, shot.taken.date(), self.desk.who())
        signed = len(changes) > 1
        if not self.desk.act(f"Photo of {target.key}: {shot.path.name}", changes, at=SAME_LINE):
            self.said = "Not saved. Esc = see why"
            return
        self.said = f"{'Signed off' if signed else 'Filed under'} {target.key}: {shot.path.name}. u = undo"
        # What was signed off is not offered again under its key, but the thing itself is.
        self.last = of_thing(self.desk.state.job, target.key.partition("/")[0])
        self.put.append(self.at)
        self.step(1)

    def back_out(self) -> None:
        """Take the last photo back."""
        if not self.put:
            self.said = "Nothing to undo"
            return
        self.desk.undo()
        self.at, self.first = self.put.pop(), 0
        self.said = "Undone"

    def words(self) -> str:
        """What this photo is: its number, name, time, and what it is a double of."""
        shot = self.shot
        if shot is None:
            return "\n".join([f"All {plural(len(self.shots), 'photo')} seen. Esc = done", *self._not_shown()])
        clock = f"{date_text(self.desk.state.job, shot.taken.date())} {shot.taken:%H:%M}"
        lines = [f"{self.at + 1} of {len(self.shots)}  {shot.path.name}"]
        lines.append(f"{clock} ({'camera' if shot.by_camera else 'file'})")
        if shot.same_as:
            lines.append(f"Duplicate of {shot.same_as}")
        elif shot.like:
            lines.append(f"Looks the same as {shot.like}")
        if self.at in self.put:
            lines.append("Filed already")
        return "\n".join(lines)

    def _not_shown(self) -> Iterator[str]:
        """What of the folder could not be shown: each by its name, with the reason."""
        if self.unread:
            yield from ("", f"{plural(len(self.unread), 'file')} can't be shown:")
        for one in self.unread[:MOST_TOLD]:
            yield f"{one.path.name}: {one.why}"
        if len(self.unread) > MOST_TOLD:
            yield f"and {len(self.unread) - MOST_TOLD} more"

    def result(self) -> str:
        """How many went where, in one line."""
        put = len(set(self.put))
        return f"{plural(put, 'photo')} filed, {len(self.shots) - put} left. The folder is unchanged."


class PhotoSorting(Window[None]):
    """The photo, beside it what it can be put to."""

    CSS = """
    PhotoSorting {
        & > Vertical { width: 100%; height: 100%; background: $surface; }
        #photo { width: 1fr; height: 1fr; }
        #said { height: 1; text-style: bold; }
        #places { width: 45%; min-width: 36; max-width: 70; height: 100%; padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(str(number), f"put({number})", f"File there {number}") for number in range(1, AT_ONCE + 1)),
        Binding("plus", "more", "More places"),
        Binding("slash", "any", "Any other place"),
        Binding("w", "place", "Place on the wall"),
        Binding("enter", "again", "Same as last"),
        Binding("s,right", "step(1)", "Skip"),
        Binding("left", "step(-1)", "One back"),
        Binding("u", "undo", "Undo"),
        Binding("escape", "leave", "Done"),
    ]

    def __init__(self, sorting: Sorting) -> None:
        super().__init__()
        self.sorting = sorting
        self._places: list[str] = []
        """The key of the place on each line."""

    def compose(self) -> ComposeResult:
        """Picture and places, what was done, the keys."""
        with Vertical():
            with Horizontal():
                yield HalfBlocks(id="photo")
                yield Static(id="places")
            yield Static(id="said")
            yield HintLine(KEYS, id="keys")

    def on_mount(self) -> None:
        """The first photo."""
        self._show()

    def on_resize(self, event: events.Resize) -> None:
        """Names are cut to the room there is."""
        self._show()

    def _show(self) -> None:
        sorting = self.sorting
        shot = sorting.shot
        photo = self.query_one(HalfBlocks)
        if photo.path != (shot.path if shot else None):
            photo.show(shot.path if shot else None)
        wide = max(self.query_one("#places").size.width - 2, 20)
        lines = [*sorting.words().split("\n"), ""]
        self._places = [""] * len(lines)
        if shot is not None:
            lines += [f"{number} {each.label}" for number, each in enumerate(sorting.offered(), 1)]
            if not sorting.offered():
                lines.append("No place yet. w = enter one")
            elif (beyond := len(sorting.places()) - AT_ONCE) > 0:
                lines.append(f"+ = more ({beyond})")
            self._places += [each.partition(" ")[0] for each in lines[len(self._places) :]]
        self.query_one("#places", Static).update(content("\n".join(fit(each, wide).rstrip() for each in lines)))
        self.query_one("#said", Static).update(content(fit(sorting.said, max(self.size.width, 20))))

    @on(events.Click, "#places")
    def place_clicked(self, event: events.Click) -> None:
        """A click on a place is its key."""
        key = self._places[event.y] if event.y < len(self._places) else ""
        if key.isdigit():
            self.action_put(int(key))
        elif key == "+":
            self.action_more()

    def action_put(self, number: int) -> None:
        """Put it to one of the places with a key."""
        offered = self.sorting.offered()
        if number <= len(offered):
            self.sorting.put_to(offered[number - 1])
            self._show()

    def action_more(self) -> None:
        """The next places."""
        self.sorting.more()
        self._show()

    def action_any(self) -> None:
        """Pick among all places."""
        if self.sorting.shot is None:
            return
        named = {each.key: each for each in self.sorting.places()}

        def picked(key: str) -> None:
            self.sorting.put_to(named[key])
            self._show()

        self.sorting.desk.pick("What is it a photo of?", [(key, one.label) for key, one in named.items()], picked)

    def action_place(self) -> None:
        """Enter the place on the wall, and what it shows, in the form of a photo."""
        sorting, desk = self.sorting, self.sorting.desk
        shot = sorting.shot
        if shot is None:
            return
        try:
            file = keep(shot, desk.folder)
        except BadValue as error:
            sorting.said = f"{shot.path.name}: {error}"
            self._show()
            return

        def save(values: dict[str, Any]) -> str:
            from store.book.changes import add

            photo = Photo(tag="", **values)
            saved = desk.act(f"Photo: {shot.path.name}", [add(photo)], at=SAME_LINE)
            return "" if saved else "Not saved. What you typed is still here."

        def then() -> None:
            sorting.put.append(sorting.at)
            sorting.said = f"Added {shot.path.name}. u = undo"
            sorting.step(1)
            self._show()

        wall = next(iter(desk.state.job.tables.get("wall", {})), "")
        desk.fill_out("New photo", Photo, photo_values(file, shot.taken.date(), wall=wall), save, then)

    def action_again(self) -> None:
        """Put it where the last one went."""
        if self.sorting.last is None:
            self.sorting.said = "No photo filed yet. 1-9 = file there"
        else:
            self.sorting.put_to(self.sorting.last)
        self._show()

    def action_step(self, by: int) -> None:
        """Another photo."""
        self.sorting.step(by)
        self.sorting.said = ""
        self._show()

    def action_undo(self) -> None:
        """Take the last one back."""
        self.sorting.back_out()
        self._show()

    def action_leave(self) -> None:
        """Done."""
        self.dismiss(None)


def ask_folder(app: App[Any], desk: Desk) -> None:
    """Ask for the folder, and go through it."""
    desk.ask(
        "Folder with the photos from the phone",
        lambda typed: sort_folder(app, desk, Path(typed).expanduser()),
        about="Copy them from the phone first. Each is shown, filed under an item, an access panel or a place with "
        "one key, and copied beside the job. The folder itself is not changed.",
    )


def sort_folder(app: App[Any], desk: Desk, folder: Path) -> None:
    """Look through a folder in a thread, then show its photos one by one."""
    job, home = desk.state.job, desk.folder

    def told(at: int, of: int) -> None:
        if at % 5 == 0:
            app.call_from_thread(desk.say, f"Reading {folder}: {at} of {of} files ...")

    def work() -> None:
        try:
            found = folder_of(folder, job, home, told)
        except StudbookError as error:
            app.call_from_thread(_say(desk, f"{error}", bad=True))
        except OSError as error:
            app.call_from_thread(_say(desk, f"{folder}: it can't be read ({error.strerror})", bad=True))
        else:
            app.call_from_thread(_sort, app, desk, found)

    app.run_worker(work, thread=True, group="photos", exclusive=True)


def _say(desk: Desk, words: str, *, bad: bool) -> Callable[[], None]:
    return lambda: desk.say(words, bad=bad)


def _sort(app: App[Any], desk: Desk, found: Folder) -> None:
    left = left_out(found)
    if not found.shots:
        desk.say(f"No photo to show. {left}".strip(), bad=True)
        return
    sorting = Sorting(desk, found)
    sorting.said = left
    app.push_screen(PhotoSorting(sorting), lambda _: desk.say(f"{sorting.result()} {left}".strip()))


def left_out(found: Folder) -> str:
    """What of a folder cannot be shown, and why; empty where all can."""
    words = []
    if found.unread:
        one = found.unread[0]
        more = f" (and {len(found.unread) - 1} more)" if len(found.unread) > 1 else ""
        words.append(f"{one.path.name}: {one.why}{more}")
    if found.others:
        words.append(f"{plural(found.others, 'file')} not a photo" if found.others == 1
                     else f"{plural(found.others, 'file')} not photos")  # fmt: skip
    return ". ".join(words)
