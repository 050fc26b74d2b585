"""Edits of parts on the drawing table: which way is up, where the hide's backbone lies."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.draft import Draft, Refused
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told, number
from armorplan.desktop.shape_edit_words import mm
from armorplan.desktop.widgets.shape_edit_doing import TableDoing

TURN_DEG = 5.0
"""One press turns the arrow so far; typed, it goes anywhere."""
ROUND_DEG = 360.0


def _tr(text: str) -> str:
    return QCoreApplication.translate("PartActs", text)


class PartActs:
    """What the menu of parts does."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "turn_left": lambda: self._turn(TURN_DEG),
            "turn_right": lambda: self._turn(-TURN_DEG),
            "set_ways": self._ask_ways,
            "part_facts": lambda: self._doing.fields_wanted.emit("parts"),
        }

    def _turn(self, by_deg: float) -> None:
        held = [self._doing.scene.pattern.part(part) for part in self._doing.parts]
        ways = {part.id: (part.up_deg + by_deg) % ROUND_DEG for part in held}
        self._put_up(ways, _tr("turn up of {0}").format(", ".join(part.name for part in held)))

    def _put_up(self, ways: Mapping[str, float], words: str) -> None:
        self._doing.edit(
            lambda draft: draft.put(
                *((("parts", part, "up_deg"), plain(up_deg)) for part, up_deg in ways.items())
            ),
            words,
        )

    def _ask_ways(self) -> None:
        parts = [self._doing.scene.pattern.part(part) for part in self._doing.parts]
        first = parts[0]
        backbone = "" if first.backbone_deg is None else mm(first.backbone_deg)
        self._doing.ask(
            Ask(
                id="set_ways",
                title=_tr("Ways on {0}").format(", ".join(part.name for part in parts)),
                help=_tr("0 is right, 90 is up the page, 180 is left."),
                fields=(
                    AskField(name="up", label=_tr("up"), text=mm(first.up_deg), unit="°"),
                    AskField(
                        name="backbone",
                        label=_tr("backbone"),
                        text=backbone,
                        unit="°",
                        may_lack=True,
                    ),
                ),
                then=lambda told: self._set_ways(tuple(part.id for part in parts), told),
            )
        )

    def _set_ways(self, parts: tuple[str, ...], told: Told) -> None:
        up_deg = plain(number(told["up"], unit="°") % ROUND_DEG)
        bone = told["backbone"].strip()
        bone_deg = plain(number(bone, unit="°") % ROUND_DEG) if bone else None

        def put(draft: Draft) -> Draft | Refused:
            ups = ((("parts", part, "up_deg"), up_deg) for part in parts)
            bones = ((("parts", part, "backbone_deg"), bone_deg) for part in parts)
            return draft.put(*ups, *bones)

        self._doing.edit(put, _tr("ways on {0}").format(", ".join(parts)))


def plain(value: float) -> float | int:
    """Return a number as one would write it: without a nought behind the point."""
    value = round(value, 3)
    return int(value) if value == int(value) else value
