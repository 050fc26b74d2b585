"""What is proved of a plan, and how much better any plan could be, in one sentence each."""

from collections.abc import Iterable

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.wording import minutes_text
from armorplan.kernel.units import span_words
from armorplan.schedule.problem import Stage, Status
from armorplan.schedule.stages import FINISH, FITS, LATENESS

_IN_MINUTES = (LATENESS, FINISH, FITS)
_FINE_MIN = 60


def _tr(text: str) -> str:
    return QCoreApplication.translate("StageWords", text)


def proven_words(stages: Iterable[Stage]) -> str:
    """Return what is proved best, and of the rest at most how much better it could be.

    After a stop nothing is called best, though some of it may be as good as any plan's.
    """
    proved, equal, open_ = [], [], []
    for stage in stages:
        if stage.status is Status.BEST:
            proved.append(_tr(stage.name))
        elif stage.value <= stage.bound:
            equal.append(_tr(stage.name))
        else:
            says = _tr("{stage} (at most {much})")
            open_.append(says.format(stage=_tr(stage.name), much=_better(stage)))
    told = []
    if proved:
        told.append(_tr("Proved best: {stages}.").format(stages=", ".join(proved)))
    if equal:
        told.append(_tr("No plan has it better: {stages}.").format(stages=", ".join(equal)))
    if open_:
        told.append(_tr("Not proved best: {stages}.").format(stages=", ".join(open_)))
    return " ".join(told)


def _better(stage: Stage) -> str:
    gap = stage.value - stage.bound
    if stage.name not in _IN_MINUTES:
        return _tr("{n} fewer").format(n=gap)
    span = minutes_text(gap) if gap < _FINE_MIN else span_words(gap)
    says = {LATENESS: _tr("{span} less in all"), FITS: _tr("{span} sooner in all")}
    return says.get(stage.name, _tr("{span} sooner")).format(span=span)
