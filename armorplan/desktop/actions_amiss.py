"""What a person can do where something went wrong or is to be kept: within the menu Bench."""

from armorplan.desktop.action import Action, Menu

AMISS: tuple[Action, ...] = (
    Action(
        id="show_way_back",
        menu=Menu.BENCH,
        text="Something is amiss …",
        keys=("Shift+F9",),
        does="Say what went wrong at what is chosen, see the ways back side by side, choose one.",
    ),
    Action(
        id="earlier_next_time",
        menu=Menu.BENCH,
        text="Do this earlier next time",
        keys=("Ctrl+Shift+Left",),
        does="Have the chosen step come earlier from the next build on: Enter keeps what is offered.",
    ),
    Action(
        id="show_dry_fit",
        menu=Menu.BENCH,
        text="Dry fit …",
        keys=("Ctrl+Shift+G",),
        does="Go through the dry fit: lay-out, rounds with their pins, looks, what was found, sign-off.",
    ),
    Action(
        id="show_keepsakes",
        menu=Menu.BENCH,
        text="Notes, measurements and photos …",
        keys=("Ctrl+Shift+N",),
        does="Keep a note, a measurement or a photo of the chosen step or part, and see what is kept.",
    ),
    Action(
        id="show_practice",
        menu=Menu.BENCH,
        text="Practice …",
        keys=("Ctrl+Alt+R",),
        does="Exercises of this very pattern: its order and the reasons; how far one is; sign-off.",
    ),
)
