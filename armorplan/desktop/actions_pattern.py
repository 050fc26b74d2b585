"""What a person can do with a pattern of their own: within the menu Pattern."""

from armorplan.desktop.action import Action, Menu

OWN_PATTERN: tuple[Action, ...] = (
    Action(
        id="bring_in",
        menu=Menu.PATTERN,
        text="Bring in a drawing …",
        keys=("Ctrl+Alt+I",),
        does="Make a pattern of an SVG or DXF drawing: what its lines mean is suggested and asked.",
    ),
    Action(
        id="edit_shapes",
        menu=Menu.PATTERN,
        text="Drawing table of the pattern",
        keys=("Ctrl+Alt+D",),
        does="Change parts, holes, rows and layers where they lie; begins at what is chosen.",
    ),
    Action(
        id="fit_to_wearer",
        menu=Menu.PATTERN,
        text="To the wearer",
        keys=("Ctrl+Alt+F",),
        does="Make the pattern to a wearer's measures, in a folder of its own.",
    ),
    Action(
        id="show_cutting",
        menu=Menu.PATTERN,
        text="Cutting",
        keys=("Ctrl+Alt+C",),
        does="List what is cut of which leather, lay it on a bed, save it for a cutter.",
    ),
    Action(
        id="show_corrections",
        menu=Menu.PATTERN,
        text="Corrections and versions",
        keys=("Ctrl+Alt+K",),
        does="See what dry fits ask of the pattern, accept it one by one, keep it as its next version.",
    ),
)
