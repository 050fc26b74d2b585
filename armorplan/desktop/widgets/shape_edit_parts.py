"""Edits of parts on the drawing table: which way is up, of what they are made, what is put on."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.parts import (
    add_material,
    add_treatment,
    drop_parts,
    plain_deg,
    set_parts,
    turn_up,
)
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told, number
from armorplan.desktop.shape_edit_words import mm
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.workshop.shelf import TreatmentKind

TURN_DEG = 5.0
"""One press turns the arrow so far; typed, it goes anywhere."""
USUAL_THICK_MM = 3.2
"""What is offered for a new leather: 8 oz, common practice."""
_COATS = (TreatmentKind.DYE, TreatmentKind.OIL, TreatmentKind.FINISH)


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
            "new_leather": self._ask_leather,
            "new_coat": self._ask_coat,
            "drop_parts": self._drop,
        }

    def _names(self) -> str:
        return ", ".join(self._doing.scene.pattern.part(part).name for part in self._doing.parts)

    def _turn(self, by_deg: float) -> None:
        parts, words = self._doing.parts, _tr("turn up of {0}").format(self._names())
        self._doing.edit(lambda draft: turn_up(draft, parts, by_deg), words)

    def _ask_ways(self) -> None:
        parts = self._doing.parts
        first = self._doing.scene.pattern.part(parts[0])
        bone = "" if first.backbone_deg is None else mm(first.backbone_deg)
        self._doing.ask(
            Ask(
                id="set_ways",
                title=_tr("Ways on {0}").format(self._names()),
                help=_tr("0 is right, 90 is up the page, 180 is left."),
                fields=(
                    AskField(name="up", label=_tr("up"), text=mm(first.up_deg), unit="°"),
                    AskField(
                        name="bone", label=_tr("backbone"), text=bone, unit="°", may_lack=True
                    ),
                ),
                then=lambda told: self._set_ways(parts, told),
            )
        )

    def _set_ways(self, parts: tuple[str, ...], told: Told) -> None:
        bone = told["bone"].strip()
        facts = {
            "up_deg": plain_deg(number(told["up"], unit="°")),
            "backbone_deg": plain_deg(number(bone, unit="°")) if bone else None,
        }
        words = _tr("ways on {0}").format(", ".join(parts))
        self._doing.edit(lambda draft: set_parts(draft, parts, facts), words)

    # --- leather and coats --------------------------------------------------------------------

    def _ask_leather(self) -> None:
        shelf = self._doing.desk.drafts.draft.bench.shelf
        leathers = tuple((one.id, one.name) for one in shelf.leathers)
        self._doing.ask(
            Ask(
                id="new_leather",
                title=_tr("Another leather for the pattern"),
                fields=(
                    AskField(name="name", label=_tr("called"), text="leather"),
                    AskField(name="leather", label=_tr("is"), words=leathers),
                    AskField(name="thick", label=_tr("thick"), text=mm(USUAL_THICK_MM), unit="mm"),
                ),
                then=self._add_leather,
            )
        )

    def _add_leather(self, told: Told) -> None:
        name, thick_mm = told["name"].strip(), number(told["thick"])
        self._doing.edit(
            lambda draft: add_material(
                draft, name, leather=told["leather"], thickness_mm=thick_mm
            ),
            _tr("leather {0}").format(name),
        )

    def _ask_coat(self) -> None:
        shelf, parts = self._doing.desk.drafts.draft.bench.shelf, self._doing.parts
        uses = tuple((one.id, one.name) for one in shelf.treatments if one.kind in _COATS)
        self._doing.ask(
            Ask(
                id="new_coat",
                title=_tr("Put on {0}").format(self._names()),
                fields=(
                    AskField(name="use", label=_tr("what"), words=uses),
                    AskField(name="colour", label=_tr("colour"), may_lack=True),
                    AskField(name="coats", label=_tr("coats"), text="1", unit=_tr("times")),
                ),
                then=lambda told: self._add_coat(parts, told),
            )
        )

    def _add_coat(self, parts: tuple[str, ...], told: Told) -> None:
        use, colour = told["use"], told["colour"].strip()
        coats = max(round(number(told["coats"], unit=_tr("times"))), 1)
        self._doing.edit(
            lambda draft: add_treatment(draft, use, parts=parts, colour=colour, coats=coats),
            _tr("{0} on {1}").format(use, ", ".join(parts)),
        )

    def _drop(self) -> None:
        parts, words = self._doing.choice.parts, _tr("take out {0}").format(self._names())
        self._doing.edit(lambda draft: drop_parts(draft, parts), words)
