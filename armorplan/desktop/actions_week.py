"""What a person can do about the week: lay it otherwise, compare it, promise it, have its picture."""

from armorplan.desktop.action import Action, Menu

WEEK: tuple[Action, ...] = (
    Action(
        id="lay_week",
        menu=Menu.SHOW,
        text="Lay the week otherwise",
        keys=("Ctrl+Shift+W",),
        does="Show the week by person, by bath and rack, or by build, one after the other.",
    ),
    Action(
        id="compare_week",
        menu=Menu.SHOW,
        text="The week as promised too",
        keys=("Ctrl+Shift+C",),
        does="Draw below what has moved where it lay when the plan was promised, or leave that out.",
    ),
    Action(
        id="keep_promise",
        menu=Menu.PLAN,
        text="Keep this plan as promised",
        keys=("Ctrl+Shift+K",),
        does="Remember the plan as it stands, to compare later ones with what was promised.",
    ),
    Action(
        id="save_week",
        menu=Menu.PLAN,
        text="Save the week as a picture …",
        keys=("Ctrl+Shift+F",),
        does="Write the week as it is laid now as a PDF, SVG or PNG, to print or send.",
    ),
)
