"""What may be done beside telling of a mistake: look at the ways back, or give one up that was chosen."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.way_back_protocol import BenchWayBack, ChosenWay
from armorplan.desktop.way_back_talk import NUMBERS, Choice, Screen

WAYS, FORGET, DROP, KEEP = "ways", "forget:", "drop:", "keep"


def _say(text: str) -> str:
    return QCoreApplication.translate("way_back", text)


def extras(way_back: BenchWayBack) -> tuple[Choice, ...]:
    """Return the answers that stand behind the kinds, with digits of their own.

    So no digit ever changes its meaning with what is offered beside it.
    """
    first = len(NUMBERS) + 1
    is_amiss = bool(way_back.stuck() or way_back.mistakes())
    ways = Choice(key=WAYS, text=_say("Nothing more: see the ways back"), number=first)
    drop = _say("Drop the way back: {0}")
    drops = (
        Choice(key=f"{FORGET}{way.id}", text=drop.format(way.title), number=number)
        for number, way in enumerate(_followed(way_back), start=first + 1)
    )
    return (*((ways,) if is_amiss else ()), *drops)


def drop_screen(way_back: BenchWayBack, way: str) -> Screen:
    """Return the question before a way is given up: a digit pressed by habit must not do that."""
    title = next((one.title for one in _followed(way_back) if one.id == way), "")
    return Screen(
        heading=_say("Drop the way back: {0}?").format(title),
        choices=(
            Choice(key=KEEP, text=_say("Keep it")),
            Choice(key=f"{DROP}{way}", text=_say("Drop it: what was done of it stands")),
        ),
    )


def _followed(way_back: BenchWayBack) -> tuple[ChosenWay, ...]:
    return tuple(way for way in way_back.chosen() if not way.given_up)
