"""What exercises are called, and how one answers them on paper."""

from armorplan.practice.drill import AnswerForm, Asked, DrillKind

KIND_WORDS: dict[DrillKind, str] = {
    DrillKind.ORDER: "Put in order",
    DrillKind.NEXT: "What may come next",
    DrillKind.MISTAKE: "Find the mistake",
    DrillKind.FIRST: "Which joint first",
    DrillKind.FASTENER: "Which fastener",
    DrillKind.DRY: "Dry yet?",
    DrillKind.DAY: "Plan the day",
    DrillKind.WAY_BACK: "The way back",
}
"""What is asked, as a heading."""

ON_PAPER: dict[AnswerForm, str] = {
    AnswerForm.ORDER: "Number the boxes: 1 for what is done first. There may be several right orders.",
    AnswerForm.SOME: "Tick every one that is right.",
    AnswerForm.ONE: "Fill in the one circle.",
    AnswerForm.TIMES: "Write beside each when it is begun. Draw the day below to try it out.",
}
"""How one answers with a pencil."""

NO_ORDER = (
    "{0} has no order: its relations contradict each other, so nothing can be asked of it. "
    "'armorplan check' says which."
)
"""What is said of a build that no exercise can be made of."""


def name_of(asked: Asked) -> str:
    """Return what makes the same exercise of the same build again, in words."""
    about = "".join(f", {one}" for one in (asked.piece, asked.part, asked.focus) if one)
    return f"exercise {asked.seed}, {asked.level.words}{about}"
