"""From a suggested match to joints: its ghost on the drawing, and what is asked before it is made."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.joints import joints_from_match
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_scene import HOLE
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.desktop.widgets.shape_edit_joints import how_fields, how_told, usual_motion
from armorplan.desktop.widgets.shape_edit_matches import MatchPanel, match_ghost
from armorplan.geometry.matching.model import RowMatch


def _tr(text: str) -> str:
    return QCoreApplication.translate("MatchActs", text)


class MatchActs:
    """Looks for matches, and joins what is accepted."""

    def __init__(self, doing: TableDoing, panel: MatchPanel) -> None:
        self._doing, self._panel = doing, panel
        panel.pointed.connect(self._point)
        panel.accepted.connect(self._ask)
        panel.failed.connect(doing.said)

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what the act does, by its slug."""
        return {"matches": self.look}

    def look(self) -> None:
        """Look for rows that fit each other."""
        self._panel.look(self._doing.scene)

    def look_again(self) -> None:
        """Look anew where the list is open: holes may have been joined or moved."""
        if not self._panel.isHidden():
            self.look()

    def _point(self, match: RowMatch | None) -> None:
        if match is None:
            self._doing.canvas.show_ghosts(())
            return
        keys = tuple(HOLE + hole for pair in match.pairs for hole in pair)
        self._doing.choose(Choice(keys).within(self._doing.scene))
        self._doing.canvas.show_ghosts((match_ghost(self._doing.scene, match),))

    def _ask(self, match: RowMatch) -> None:
        pattern = self._doing.scene.pattern
        names = tuple((part, pattern.part(part).name) for part in (match.first, match.second))
        count = len(match.pairs)
        called = (
            (
                AskField(
                    name="name", label=_tr("called"), text=_tr(" to ").join(n for _, n in names)
                ),
            )
            if count > 1
            else ()
        )
        self._doing.ask(
            Ask(
                id="match",
                title=_tr("Join {0} pairs of holes").format(count),
                fields=(
                    *how_fields(
                        self._doing.desk.drafts.draft.bench.shelf,
                        usual_motion(pattern, (match.first, match.second), count),
                    ),
                    AskField(name="outside", label=_tr("outside lies"), words=names),
                    *called,
                ),
                then=lambda told: self._join(match, told),
                sketch=lambda _told: (match_ghost(self._doing.scene, match),),
            )
        )

    def _join(self, match: RowMatch, told: Told) -> None:
        how = how_told(told)
        is_first, name = told["outside"] == match.first, told.get("name", "").strip()
        self._doing.edit(
            lambda draft: joints_from_match(
                draft, match, is_first_outside=is_first, how=how, name=name
            ),
            _tr("join {0} and {1}").format(match.first, match.second),
        )
