"""The screen of a job: stage line, views, table, page; it turns what is pressed into work on the desk."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.screen import Screen

from store.book.book import Book
from store.measure.errors import StudbookError
from tui.screen.filtering import Filtering
from tui.screen.keys import JOB_KEYS, MOVING_KEYS, WALL_KEYS, list_keys, with_signs
from tui.screen.listing import Listing
from tui.screen.sections import Sections, leads_to, next_view
from tui.screen.trail import Spot, Trail
from tui.screen.wall.panes import Pane, Panes
from tui.view.state import State
from tui.view.view import View
from tui.views.index import Views
from tui.widgets.lines import ChoiceLine, SayLine
from tui.widgets.record_table import RecordTable
from tui.widgets.stage_line import StageLine

if TYPE_CHECKING:
    from tui.screen.desk import WorkDesk
    from tui.screen.host import Host
    from tui.screen.looking import Looking
SETTLE_AFTER_S = 0.02
"""What the driver's own thread needs to write a frame; without it the first paint would wait for the findings."""


class JobScreen(Screen[None]):
    """One job."""

    BINDINGS: ClassVar[list[BindingType]] = JOB_KEYS

    def __init__(self, book: Book) -> None:
        super().__init__()
        self.book = book
        self.views = Views()
        self.number = 0
        self._work: WorkDesk | None = None
        self._first = State(book.job)
        self.filtering = Filtering()
        self.settled = False  # once everything was read and shown, not only the first rows
        self.listing = Listing()
        self._sections = Sections()
        self._trail = Trail()
        self._left_at: dict[str, str] = {}  # where the cursor was when a view was left
        self.panes = Panes(self, lambda: self.desk, lambda: self.table.cells_wanted)
        self._looking: Looking | None = None

    def compose(self) -> ComposeResult:
        """From the stage line down to the keys."""
        yield StageLine(id="stages")
        yield ChoiceLine(bare=True, id="sections")
        yield ChoiceLine(id="views")
        with Horizontal(id="middle"):
            yield RecordTable(id="table")
        yield SayLine(lambda: self.table.cut, id="say")
        yield ChoiceLine(rest="ctrl+p", before=self.take_keys, id="keys")

    def on_mount(self) -> None:
        """Show the first view; what follows from the whole job comes right after the first paint."""
        self.show_names()
        try:
            self.show_table(None)
        except StudbookError as error:
            cast("Host", self.app).give_up(error)
            return
        self.table.focus()

    @on(RecordTable.Painted)
    def painted(self) -> None:
        """The rows are drawn: let them reach the terminal before anything else is worked out."""
        self.set_timer(SETTLE_AFTER_S, self.settle)

    async def settle(self) -> None:
        """Read the whole file, show what follows from it, and begin to look for other people's changes."""
        from tui.screen.settling import filter_line, settle

        self.filtering.line = filter_line()
        await self.mount(self.filtering.line, before="#middle")
        self._looking = settle(self, self.desk, self.tell)
        self.settled = self._looking is not None

    @property
    def view(self) -> View:
        """The view that is shown."""
        return self.views[self.number]

    @property
    def desk(self) -> WorkDesk:
        """The desk that work is done on; made on first use, since the first paint needs none of its windows."""
        if self._work is None:
            from tui.screen.desk import WorkDesk

            self._work = WorkDesk(self.app, self.book, self.show_all, self.tell)
            self._work.on_go_to(self.go_to, self.open_list)
        return self._work

    @property
    def table(self) -> RecordTable:
        """The table."""
        return self.query_one("#table", RecordTable)

    @property
    def say_line(self) -> SayLine:
        """The line under the table."""
        return self.query_one("#say", SayLine)

    @property
    def chosen(self) -> str | None:
        """The key of what keys act on, which is always in sight."""
        return self.panes.selected(self.table.cursor_key)

    @property
    def subject(self) -> str:
        """The record that the row under the cursor is about; empty for none."""
        key = self.table.cursor_key
        return self.view.subject(self.desk.state, key) if key else ""

    def tell(self, words: str, bad: bool) -> None:
        """Say something under the table."""
        self.say_line.say(words, bad=bad)

    # --- showing ---

    def show_all(self, at: str | None) -> None:
        """Show everything as it is now; the cursor goes to `at`, or stays."""
        self.query_one("#stages", StageLine).show(self.desk.state.standing, self.desk.state.upkeep)
        self.show_names()
        self.listing.forget_words()
        self.show_rows(at)

    def show_names(self) -> None:
        """The names of the sections and of the views of this one, and the keys of this view."""
        self._sections.show(self, self.number)
        self.show_keys()

    def show_keys(self) -> None:
        """At the foot, the keys that work now: of the list, of the drawing, or of a move."""
        keys = MOVING_KEYS if self.panes.moving else WALL_KEYS if self.panes.drawn else list_keys(self.view)
        self.query_one("#keys", ChoiceLine).show(with_signs(keys, self.app.theme))

    def show_rows(self, at: str | None = None) -> None:
        """Show the rows of the view, and the page of the one under the cursor."""
        self.show_table(at)
        self.show_page()

    def show_table(self, at: str | None) -> None:
        """The rows of the view: its subset, narrowed by the filter, in the order asked for."""
        state, view = self._work.state if self._work else self._first, self.view
        early = view.follows and self._work is None
        rows = [] if early else self.listing.rows(view, state, self.filtering.words)
        self.table.show(
            view.columns(state),
            [view.key(row) for row in rows],
            lambda number: view.line(state, rows[number]),
            empty=view.follows if early else self.listing.empty(view, self.filtering.words),
            sorted_by=self.listing.sorted_by(view),
            at=at,
        )
        subset = f"[{self.listing.subset(view)}] " if view.filters else ""
        self.say_line.show("" if early else subset + view.summary(state, rows))

    def show_page(self) -> None:
        """The row under the cursor on the wall, and on a wide screen its page."""
        self.panes.show_wall(self.subject)
        self.show_side()

    def show_side(self) -> None:
        """The page of what keys act on, where there is room for it."""
        shown = self.panes.paged
        self.set_class(shown, "-page")
        if not shown:
            return
        from tui.acts.page import page_text, page_title  # a narrow screen shows none

        key, state, text = self.chosen, self.desk.state, ""
        if key:
            title, page = self.view.page(state, key) or (page_title(state, key), page_text(state, key))
            text = f"{title}\n\n{page}"
        self.panes.show_page(text)

    def action_wall(self) -> None:
        """Give the screen to the drawing, and the keys with it."""
        self.panes.open_wall(self.subject)
        self.show_keys()

    def action_pane(self, pane: Pane) -> None:
        """Show or hide the drawing or the page beside the list."""
        said = self.panes.turn(pane)
        self.remove_class("-wall")
        self.table.focus()
        self.show_page()
        self.tell(said, False)

    def action_palette(self) -> None:
        """Every act by its name."""
        from tui.screen.palette import show_palette

        show_palette(self, self.view, drawn=self.panes.drawn)

    def on_descendant_focus(self) -> None:
        """The keys went to the list or to the drawing."""
        if self.settled:
            self.show_keys()

    on_wall_pane_turned = on_descendant_focus

    # By Textual's naming and not by `@on`, so that the drawing is imported only when it is shown.
    def on_wall_drawing_chosen(self) -> None:
        """Something was selected on the drawing: its page."""
        self.show_side()

    def on_wall_pane_left(self) -> None:
        """Back to the table."""
        self.remove_class("-wall")
        self.table.focus()
        self.show_all(None)

    def look(self) -> None:
        """Take over what somebody else saved."""
        if self._looking is not None:
            self._looking.look()

    @on(RecordTable.Moved)
    def moved(self) -> None:
        """Another row: its page, and nothing said any more."""
        self.tell("", False)
        self.show_page()

    @on(RecordTable.Opened)
    def opened(self, event: RecordTable.Opened) -> None:
        """The page of a row."""
        self.view.opened(self.desk, event.key)

    @on(RecordTable.TitleClicked)
    def sort_clicked(self, event: RecordTable.TitleClicked) -> None:
        """Sort by the column that was clicked; again the other way; a third time as it was."""
        self.listing.by_column(self.view, event.column)
        self.show_rows()

    @on(StageLine.Asked)
    def gate_clicked(self) -> None:
        """Show the gate."""
        self.desk.gate()

    @on(ChoiceLine.Pressed)
    async def line_clicked(self, event: ChoiceLine.Pressed) -> None:
        """A click on the name of a section or of a view leads there."""
        if action := leads_to(event.key):
            await self.run_action(action)

    def take_keys(self) -> None:
        """Keys go to the list, or to the drawing; else the key of a label would be typed into the filter."""
        if not self.panes.drawn:
            self.set_focus(self.table)

    # By Textual's naming and not by `@on`, so that a line to type in is imported only after the first paint.
    def on_input_changed(self) -> None:
        """Narrow while typing."""
        self.show_rows()

    def on_input_submitted(self) -> None:
        """Keep the filter and go back to the rows."""
        self.take_keys()

    def on_key(self, event: events.Key) -> None:
        """The keys of the list of what is selected; on the drawing that is not the list behind it."""
        from tui.screen.wall.hands import own_key

        drawn = self.panes.drawn
        if self.panes.moving or not (drawn or self.focused is self.table):
            return
        if drawn and (bound := self.active_bindings.get(event.key)) and bound.node is self.focused:
            return
        if own_key(event.key, self.desk, self.views, self.view, self.chosen, drawn=drawn):
            event.stop()
            event.prevent_default()

    # --- actions ---

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """On the drawing no key changes a list that is out of sight; while something is moved nothing else is done."""
        if self.panes.wall is None:
            return True
        from tui.screen.wall.hands import allowed

        return allowed(self.panes.wall, action)

    def action_view(self, number: int) -> None:
        """Go to a view."""
        self._trail.forget()
        self._show_view(number)

    def _show_view(self, number: int) -> None:
        if number < len(self.views):
            self.remove_class("-wall")
            if (key := self.table.cursor_key) is not None:
                self._left_at[self.view.name] = key
            self.table.begin()
            self.number = number
            self._sections.see(number)
            self.say_line.say("")
            self.filtering.put("")
            self.show_all(self._left_at.get(self.view.name))
            self.table.focus()

    def action_step(self, by: int) -> None:
        """Go to the next view of the section."""
        self.action_view(next_view(self.number, by))

    def action_section(self, place: int) -> None:
        """Go to the view last seen in a section."""
        self.action_view(self._sections.view_of(place))

    @property
    def _spot(self) -> Spot:
        return Spot(self.number, self.table.cursor_key, self.filtering.text, self.listing.subset(self.view))

    def open_list(self, title: str, spot: Spot) -> None:
        """Show a list by its title as a spot says; Esc leads back to where the person is now."""
        here, number = self._spot, self.views.titles.index(title)
        if number != here.number:
            self._be_at(Spot(number, spot.key, spot.words, spot.subset))
            self._trail.leave(here)

    def _be_at(self, spot: Spot) -> None:
        self.listing.choose(self.views[spot.number], spot.subset)
        self._show_view(spot.number)
        if spot.words:
            self.filtering.put(spot.words)
            self.show_rows(spot.key)
        elif spot.key is not None:
            self.table.move_to(spot.key)

    def go_to(self, tag: str) -> None:
        """Show a row in its own view."""
        number = self.views.listing(self.desk.state, tag)
        if number is None:
            self.say_line.say(f"{tag} is in no list", bad=True)
            return
        here = self._spot
        self._be_at(Spot(number, tag))
        self._trail.leave(here)

    def action_row(self, what: str) -> None:
        """Something that is done to what is selected, in the list or on the drawing."""
        from tui.screen.wall.hands import work

        work(what, self.desk, self.views, self.view, self.chosen, drawn=self.panes.drawn)

    def action_work(self, what: str) -> None:
        """Something that is done on the desk whatever the view: undo, redo, the gate, the job itself, find, print."""
        from tui.screen.desk_work import desk_work

        desk_work(what, self.app, self.desk, self.view, self.table, self.chosen, lambda: self.show_all(None))

    def action_filter(self) -> None:
        """Type words to narrow the rows."""
        self.filtering.type_in()

    def action_back(self) -> None:
        """Back to where a line or a find led from; else show all rows again."""
        if (spot := self._trail.back()) is not None:
            self._be_at(spot)
            return
        self.filtering.put("")
        self.say_line.say("")
        self.table.focus()

    def action_subset(self) -> None:
        """The next subset of the view."""
        self.listing.next_subset(self.view)
        self.show_rows()

    def action_sort(self, back: bool = False) -> None:
        """Sort by the next column, after the last as it was; or by the same one the other way."""
        if back:
            self.listing.turn_round(self.view)
        else:
            self.listing.next_column(self.view, len(self.table.table_columns))
        self.show_rows()

    def action_help(self) -> None:
        """What the view is for, what to do first, and every key."""
        from tui.screen.help import help_text, show_help

        show_help(self.desk, self.view.title, help_text(self.view))

    def on_resize(self) -> None:
        """The page comes and goes with the width."""
        if self._work is not None:
            self.call_after_refresh(self.show_page)
