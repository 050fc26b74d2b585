"""Everything a person can do in the window, as one table: menus, buttons and the keys page."""

from armorplan.desktop.action import Action, Menu, said
from armorplan.desktop.actions_amiss import AMISS
from armorplan.desktop.actions_keeping import KEEPING
from armorplan.desktop.actions_pattern import OWN_PATTERN
from armorplan.desktop.actions_sheet import SHEET
from armorplan.desktop.actions_showing import SHOWING
from armorplan.desktop.actions_timing import TIMING
from armorplan.desktop.actions_wishes import WISHES

__all__ = ["TABLE", "Action", "Menu", "said"]

TABLE: tuple[Action, ...] = (
    Action(
        id="open_folder",
        menu=Menu.PATTERN,
        text="Open a pattern folder …",
        keys=("Ctrl+O",),
        does="Choose the folder of a pattern and lay it on the bench.",
    ),
    Action(
        id="open_drawing",
        menu=Menu.PATTERN,
        text="Open a bare drawing …",
        keys=("Ctrl+Shift+O",),
        does="Choose an SVG file that has no pattern.toml and lay it on the bench.",
    ),
    Action(
        id="open_shop",
        menu=Menu.PATTERN,
        text="Open a shop …",
        keys=("Ctrl+Alt+O",),
        does="Choose a shop file, begin the builds it orders, and plan them all.",
    ),
    Action(
        id="save_needs",
        menu=Menu.PATTERN,
        text="Save the needs as CSV …",
        keys=("Ctrl+Shift+E",),
        does="Write what the build uses up to a table that spreadsheets read.",
    ),
    Action(
        id="edit_pattern",
        menu=Menu.PATTERN,
        text="Texts and numbers of the pattern",
        keys=("Ctrl+E",),
        does="Change names, notes, minutes, options and reasons; begins at what is chosen.",
    ),
    *OWN_PATTERN,
    *SHEET,
    *KEEPING,
    Action(
        id="leave",
        menu=Menu.PATTERN,
        text="Close the window",
        keys=("Ctrl+Q",),
        does="Leave. What was recorded is kept, and timers go on.",
    ),
    Action(
        id="start_or_pause",
        menu=Menu.BENCH,
        text="Start or pause",
        keys=("F8",),
        on_row="Enter",
        button="Start / pause",
        does="Start the timer of the chosen step, or pause it.",
    ),
    Action(
        id="take_longer",
        menu=Menu.BENCH,
        text="Takes a quarter of an hour longer",
        keys=("Shift+F8",),
        does="Say so of the chosen step while it is under way; the plan keeps what it can.",
    ),
    Action(
        id="tick",
        menu=Menu.BENCH,
        text="Done",
        keys=("F9",),
        on_row="Space",
        button="Done",
        does="Tick the chosen step, or a whole tray or seam.",
    ),
    Action(
        id="write_note",
        menu=Menu.BENCH,
        text="Write a note",
        keys=("Ctrl+N",),
        button="Note",
        does="Write a note to the chosen step; Enter keeps it, Escape drops it.",
    ),
    Action(
        id="next_ready",
        menu=Menu.BENCH,
        text="Next ready step",
        keys=("F7", "Ctrl+Down"),
        button="Next ready",
        does="Go to the next step that can be done now, in the plan's order.",
    ),
    Action(
        id="former_ready",
        menu=Menu.BENCH,
        text="Ready step before",
        keys=("Shift+F7", "Ctrl+Up"),
        does="Go back to the ready step before.",
    ),
    Action(
        id="take_back",
        menu=Menu.BENCH,
        text="Take back",
        keys=("Ctrl+Z",),
        button="Take back",
        does="Take back the last key press at the bench.",
    ),
    Action(
        id="restore",
        menu=Menu.BENCH,
        text="Restore",
        keys=("Ctrl+Shift+Z", "Ctrl+Y"),
        button="Restore",
        does="Restore what was last taken back.",
    ),
    Action(
        id="bench_view",
        menu=Menu.BENCH,
        text="Bench view",
        keys=("F10", "Ctrl+Return"),
        button="Bench view",
        does="One step at a time over the whole window, to be read from afar; Escape goes back.",
    ),
    Action(
        id="tell_trial",
        menu=Menu.BENCH,
        text="A tool did reach, or did not …",
        keys=("Ctrl+L",),
        does="Say whether a tool got to the joint of the chosen step, or to any, see what follows, keep it.",
    ),
    Action(
        id="test_strip",
        menu=Menu.BENCH,
        text="Measure a test strip …",
        keys=("Ctrl+B",),
        does="Reckon from a bent strip where a leather keeps its length, and keep it.",
    ),
    *AMISS,
    Action(
        id="plan_again",
        menu=Menu.PLAN,
        text="Plan again from now",
        keys=("Ctrl+P",),
        does="Look for the best plan from this moment on, whatever stood where.",
    ),
    Action(
        id="stop_planning",
        menu=Menu.PLAN,
        text="Stop planning",
        keys=("Ctrl+.",),
        does="End the search with the best plan found so far.",
    ),
    Action(
        id="plan_details",
        menu=Menu.PLAN,
        text="Details of the plan",
        keys=("Ctrl+I",),
        checkable=True,
        does="Show how good the plan is in the words of the search.",
    ),
    *WISHES,
    *TIMING,
    *SHOWING,
)
