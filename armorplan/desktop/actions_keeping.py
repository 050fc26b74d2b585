"""What a person can do about the workshop file itself."""

from armorplan.desktop.action import Action, Menu

KEEPING: tuple[Action, ...] = (
    Action(
        id="write_here",
        menu=Menu.PATTERN,
        text="Write here from now on",
        keys=("Ctrl+Alt+W",),
        does="Take over writing in the workshop from another window, which reads along then.",
    ),
    Action(
        id="show_backups",
        menu=Menu.PATTERN,
        text="Backups of the workshop …",
        keys=("Ctrl+Alt+B",),
        does="List the backups, try one on a copy, see what would be lost, put it in place.",
    ),
)
