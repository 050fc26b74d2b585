"""What a person can do about timers and drying: the menu Timers."""

from armorplan.desktop.action import Action, Menu

TIMING: tuple[Action, ...] = (
    Action(
        id="quiet",
        menu=Menu.TIMERS,
        text="Quiet: I heard it",
        keys=("F5",),
        everywhere=True,
        does="Answer the timer that rings: the one with the keyboard, or the most urgent.",
    ),
    Action(
        id="quiet_all",
        menu=Menu.TIMERS,
        text="Quiet: all that ring",
        keys=("Shift+F5",),
        everywhere=True,
        does="Answer all timers that ring. Each rings again at its next moment.",
    ),
    Action(
        id="set_timer",
        menu=Menu.TIMERS,
        text="Set a timer …",
        keys=("F12", "Ctrl+Shift+T"),
        does="Type minutes and what for, such as 12 glue; Enter sets it, Escape drops it.",
    ),
    Action(
        id="stop_timer",
        menu=Menu.TIMERS,
        text="Stop a timer that was set",
        keys=("Shift+F12",),
        does="Stop the timer with the keyboard, or the next of those set by hand; Delete on its card.",
    ),
    Action(
        id="dry_now",
        menu=Menu.TIMERS,
        text="Dry now",
        keys=("F11", "Ctrl+J"),
        does="Say that the chosen piece feels dry. The shop's own drying times learn from it.",
    ),
    Action(
        id="still_damp",
        menu=Menu.TIMERS,
        text="Still damp",
        keys=("Shift+F11", "Ctrl+Shift+J"),
        does="Say that the chosen piece still feels damp. The drying times learn from it as well.",
    ),
    Action(
        id="show_missed",
        menu=Menu.TIMERS,
        text="While the program was closed",
        keys=("Ctrl+Shift+L",),
        does="Show again which moments passed while the program was closed, and what they mean.",
    ),
    Action(
        id="sound_on",
        menu=Menu.TIMERS,
        text="Sound of timers",
        keys=("Ctrl+Shift+S",),
        checkable=True,
        does="Let timers be heard, or only be seen.",
    ),
    Action(
        id="hear_all",
        menu=Menu.TIMERS,
        text="Hear the five sounds",
        keys=("Ctrl+Shift+B",),
        does="Let the sounds be heard in turn, and say what each of them tells.",
    ),
    Action(
        id="louder",
        menu=Menu.TIMERS,
        text="Louder",
        keys=("Ctrl+Shift+Up",),
        does="Make the sound of timers louder, and let it be heard.",
    ),
    Action(
        id="softer",
        menu=Menu.TIMERS,
        text="Softer",
        keys=("Ctrl+Shift+Down",),
        does="Make the sound of timers softer, and let it be heard.",
    ),
    Action(
        id="less_motion",
        menu=Menu.TIMERS,
        text="Less motion",
        keys=("Ctrl+Shift+M",),
        checkable=True,
        does="Let what rings stand still instead of changing its look each second.",
    ),
)
