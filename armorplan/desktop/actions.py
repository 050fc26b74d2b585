"""Everything a person can do in the window, as one table: menus, buttons and the keys page."""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QCoreApplication


class Menu(StrEnum):
    """Menus, left to right."""

    PATTERN = "&Pattern"
    BENCH = "&Bench"
    PLAN = "Pl&an"
    SHOW = "&Show"
    HELP = "&Help"


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing a person can do.

    Attributes:
        id: a stable slug; the window calls the method of this name.
        text: its label.
        keys: keys that work in the whole window, as Qt writes them; the first is shown.
        does: one sentence for the keys page.
        on_row: the key that does it while the checklist has the keyboard.
        button: it also stands as a button above the panels, with this shorter label.
        checkable: it is on or off.
    """

    id: str
    menu: Menu
    text: str
    keys: tuple[str, ...]
    does: str
    on_row: str = ""
    button: str = ""
    checkable: bool = False

    @property
    def shown_key(self) -> str:
        """The key to show: the one in the checklist where there is one."""
        return self.on_row or self.keys[0]


def said(text: str) -> str:
    """Return a text of the table in the person's language."""
    return QCoreApplication.translate("actions", text)


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
        id="plan_again",
        menu=Menu.PLAN,
        text="Plan again from now",
        keys=("Ctrl+P",),
        does="Look for a better plan from this moment on.",
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
    Action(
        id="ready_only",
        menu=Menu.SHOW,
        text="Ready now only",
        keys=("Ctrl+R",),
        button="Ready only",
        checkable=True,
        does="Show only the steps that can be worked on now.",
    ),
    Action(
        id="by_day",
        menu=Menu.SHOW,
        text="Checklist by day",
        keys=("Ctrl+G",),
        button="By day",
        checkable=True,
        does="Group the checklist by day, or by piece.",
    ),
    Action(
        id="find_words",
        menu=Menu.SHOW,
        text="Find in the checklist",
        keys=("Ctrl+F",),
        does="Show only the steps with certain words; Escape shows all again.",
    ),
    Action(
        id="next_look",
        menu=Menu.SHOW,
        text="Light, dark, or as the system",
        keys=("Ctrl+T",),
        does="Change the colours: as the system has them, light, dark.",
    ),
    Action(
        id="text_larger",
        menu=Menu.SHOW,
        text="Larger text",
        keys=("Ctrl++", "Ctrl+="),
        does="Make all text larger.",
    ),
    Action(
        id="text_smaller",
        menu=Menu.SHOW,
        text="Smaller text",
        keys=("Ctrl+-",),
        does="Make all text smaller.",
    ),
    Action(
        id="text_usual",
        menu=Menu.SHOW,
        text="Text in its usual size",
        keys=("Ctrl+0",),
        does="Set all text back to its usual size.",
    ),
    Action(
        id="go_checklist",
        menu=Menu.SHOW,
        text="Go to the checklist",
        keys=("Ctrl+1",),
        does="Give the keyboard to the checklist.",
    ),
    Action(
        id="go_parts",
        menu=Menu.SHOW,
        text="Go to the parts",
        keys=("Ctrl+2",),
        does="Show the parts and give them the keyboard.",
    ),
    Action(
        id="go_assembly",
        menu=Menu.SHOW,
        text="Go to the assembly graph",
        keys=("Ctrl+3",),
        does="Show what holds the parts together.",
    ),
    Action(
        id="go_steps",
        menu=Menu.SHOW,
        text="Go to the step graph",
        keys=("Ctrl+4",),
        does="Show which steps come before which.",
    ),
    Action(
        id="go_days",
        menu=Menu.SHOW,
        text="Go to the coming days",
        keys=("Ctrl+5",),
        does="Show the coming days with nights and drying.",
    ),
    Action(
        id="go_why",
        menu=Menu.SHOW,
        text="Go to the reasons",
        keys=("Ctrl+6",),
        does="Give the keyboard to the reasons of the chosen step.",
    ),
    Action(
        id="go_timers",
        menu=Menu.SHOW,
        text="Go to the timers",
        keys=("Ctrl+7",),
        does="Give the keyboard to the timers.",
    ),
    Action(
        id="go_findings",
        menu=Menu.SHOW,
        text="Go to the findings",
        keys=("Ctrl+8",),
        does="Give the keyboard to what was found in the pattern.",
    ),
    Action(
        id="go_needs",
        menu=Menu.SHOW,
        text="Go to the needs",
        keys=("Ctrl+9",),
        does="Show what the build uses up: leather, fasteners, dye, hours, cost.",
    ),
    Action(
        id="show_help",
        menu=Menu.HELP,
        text="Read the help",
        keys=("F2",),
        does="Show the help: first steps, the format of a pattern, every rule and why it holds.",
    ),
    Action(
        id="show_keys",
        menu=Menu.HELP,
        text="Keys",
        keys=("F1", "?"),
        does="Show this page.",
    ),
)
