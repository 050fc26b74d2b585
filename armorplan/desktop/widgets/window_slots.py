"""What each action of the table does in the window."""

from typing import NamedTuple, Protocol

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.tonight_desk import TonightDesk
from armorplan.desktop.widgets.bench_door import BenchDoor
from armorplan.desktop.widgets.checklist_panel import ChecklistPanel
from armorplan.desktop.widgets.deck import Deck
from armorplan.desktop.widgets.edit_door import EditDoor
from armorplan.desktop.widgets.findings_view import FindingsView
from armorplan.desktop.widgets.looks import Looks
from armorplan.desktop.widgets.pattern_doors import PatternDoors
from armorplan.desktop.widgets.savers import Savers
from armorplan.desktop.widgets.timer_desk import TimerDesk
from armorplan.desktop.widgets.window_actions import Slot
from armorplan.desktop.widgets.window_pages import WindowPages
from armorplan.desktop.widgets.workshop_keeping import WorkshopKeeping


class Window(Protocol):
    """What the window itself does."""

    def close(self) -> bool:
        """Leave."""
        ...


class Panels(NamedTuple):
    """The window and its panels, that the actions are handed on to."""

    window: Window
    bridge: Bridge
    desk: PlanDesk
    checklist: ChecklistPanel
    deck: Deck
    timing: TimerDesk
    findings: FindingsView
    looks: Looks
    pages: WindowPages
    edit: EditDoor
    own: PatternDoors
    tonight: TonightDesk
    savers: Savers
    keeping: WorkshopKeeping
    bench: BenchDoor


def slots_of(panels: Panels) -> dict[str, Slot]:
    """Return what each action does, by its id."""
    return {**_bench(panels), **_timing(panels.timing), **_showing(panels)}


def _bench(panels: Panels) -> dict[str, Slot]:
    acts = panels.checklist.acts
    return {
        **panels.own.slots(),
        "save_needs": panels.deck.needs.ask_file,
        "save_sheet": panels.savers.sheet.ask_file,
        "save_mock_up": panels.savers.sheet.ask_mock_up,
        "tell_printer": panels.pages.show_printer,
        "edit_pattern": panels.edit.show_page,
        "edit_shapes": panels.edit.show_table,
        "leave": panels.window.close,
        "write_here": panels.keeping.write_here,
        "show_backups": panels.keeping.show_backups,
        "start_or_pause": acts.start_or_pause,
        "take_longer": acts.take_longer,
        "tick": acts.tick,
        "write_note": acts.write_note,
        "next_ready": lambda: acts.go_ready(1),
        "former_ready": lambda: acts.go_ready(-1),
        "take_back": panels.bridge.undo,
        "restore": panels.bridge.redo,
        "bench_view": panels.bench.turn,
        "tell_trial": panels.pages.show_trial,
        "test_strip": panels.pages.show_strip,
        "tell_air": panels.pages.show_air,
        "show_way_back": panels.pages.show_way_back,
        "earlier_next_time": panels.pages.show_hindsight,
        "show_dry_fit": panels.pages.show_dry_fit,
        "show_away": panels.pages.show_away,
        "show_cutting": panels.pages.show_cutting,
        "show_keepsakes": panels.pages.show_keepsakes,
        "show_practice": panels.pages.show_practice,
        "around_tonight": panels.tonight.arrange,
        "show_builds": panels.pages.show_builds,
        "ask_what_if": panels.pages.show_what_if,
        "save_plan": panels.savers.plan.ask_file,
        "plan_again": panels.desk.plan_again,
        "stop_planning": panels.tonight.stop,
    }


def _timing(timing: TimerDesk) -> dict[str, Slot]:
    return {
        "quiet": timing.quiet,
        "quiet_all": timing.quiet_all,
        "set_timer": timing.entry.begin,
        "stop_timer": timing.stop,
        "dry_now": lambda: timing.look(True),
        "still_damp": lambda: timing.look(False),
        "show_missed": timing.missed.show,
        "hear_all": timing.demonstrate,
        "louder": lambda: timing.louder(1),
        "softer": lambda: timing.louder(-1),
    }


def _showing(panels: Panels) -> dict[str, Slot]:
    deck, looks = panels.deck, panels.looks
    return {
        "find_words": panels.checklist.words.setFocus,
        "next_look": lambda: panels.bridge.said.emit(looks.next_words()),
        "text_larger": lambda: looks.grow(1),
        "text_smaller": lambda: looks.grow(-1),
        "text_usual": looks.usual_size,
        "go_checklist": panels.checklist.view.setFocus,
        "go_parts": lambda: deck.go(0),
        "go_shapes": lambda: deck.go(1),
        "how_reckoned": lambda: deck.way.reckon(panels.findings.chosen()),
        "closing_onward": lambda: deck.parts.step_closing(1),
        "closing_back": lambda: deck.parts.step_closing(-1),
        "go_assembly": lambda: deck.go(2),
        "go_steps": lambda: deck.go(3),
        "go_days": lambda: deck.go(4),
        **deck.week.slots(),
        "go_drying": lambda: deck.go(5),
        "go_needs": lambda: deck.go(6),
        "go_why": deck.go_why,
        "go_between": deck.go_between,
        "go_timers": panels.timing.strip.focus_first,
        "go_findings": panels.findings.go,
        "show_help": panels.pages.show_help,
        "show_keys": panels.pages.show_keys,
    }
