"""What a person can do to have a build on paper."""

from armorplan.desktop.action import Action, Menu

SHEET: tuple[Action, ...] = (
    Action(
        id="save_sheet",
        menu=Menu.PATTERN,
        text="Save the bench sheet …",
        keys=("Ctrl+Alt+S",),
        does="Write the steps with boxes, drawings, reasons and dates as a PDF, with the parts at full size if wanted.",
    ),
    Action(
        id="save_mock_up",
        menu=Menu.PATTERN,
        text="Print the mock-up …",
        keys=("Ctrl+Alt+M",),
        does="Write the parts alone at full size as a PDF, to be printed and tried in card.",
    ),
    Action(
        id="tell_printer",
        menu=Menu.PATTERN,
        text="Scale of the printer …",
        keys=("Ctrl+Alt+P",),
        does="Say how long the bars of 100 mm came out on paper: parts at full size make up for it.",
    ),
)
