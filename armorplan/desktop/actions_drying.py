"""What a person can do about drying: see it, tell the air it dries in."""

from armorplan.desktop.action import Action, Menu

DRYING: tuple[Action, ...] = (
    Action(
        id="tell_air",
        menu=Menu.BENCH,
        text="Air of the shop …",
        keys=("Ctrl+Shift+H",),
        does="Tell how warm, damp and windy the shop is by day and night, as read, or by a logger.",
    ),
    Action(
        id="go_drying",
        menu=Menu.SHOW,
        text="Go to the drying",
        keys=("Ctrl+H",),
        does="Show how far the chosen drying is, when its windows open and close, and what if.",
    ),
)
