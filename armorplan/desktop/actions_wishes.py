"""What a person can do with the weeks ahead: tomorrow around tonight, what if, and save them."""

from armorplan.desktop.action import Action, Menu

WISHES: tuple[Action, ...] = (
    Action(
        id="show_builds",
        menu=Menu.PLAN,
        text="Builds in hand …",
        keys=("Ctrl+Shift+D",),
        does="See the date, weight and odds of each build, what costs most, and agree on dates.",
    ),
    Action(
        id="around_tonight",
        menu=Menu.PLAN,
        text="Tomorrow around tonight",
        keys=("Ctrl+Shift+P",),
        does="Lay tomorrow anew around what is drying now; all else stays where it can.",
    ),
    Action(
        id="show_away",
        menu=Menu.PLAN,
        text="Somebody is away …",
        keys=("Ctrl+Shift+U",),
        does="Say who is away and until when, or is there again; the plan keeps what it can.",
    ),
    Action(
        id="ask_what_if",
        menu=Menu.PLAN,
        text="What if …",
        keys=("Ctrl+U",),
        does="See what one more rack, an extra evening or somebody away would change; what would free a plan.",
    ),
    Action(
        id="save_plan",
        menu=Menu.PLAN,
        text="Save for a calendar or a spreadsheet …",
        keys=("Ctrl+Shift+I",),
        does="Save the plan of all builds in hand as a calendar, a spreadsheet or a week on paper.",
    ),
)
