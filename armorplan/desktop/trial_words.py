"""What the page of a tried tool says: tools, what was set before, and what a trial teaches."""

from html import escape

from PySide6.QtCore import QCoreApplication

from armorplan.app.trial_sheet import SetBefore, TrialTold, TrialTool
from armorplan.desktop.colours import Colours


def _say(text: str) -> str:
    return QCoreApplication.translate("trial", text)


def tool_words(tool: TrialTool) -> str:
    """Say a tool with its reach: ``Hand press with dies – reaches 70 mm``."""
    if tool.reach_mm is None:
        return _say("{0} – reach not known").format(tool.name)
    return _say("{0} – reaches {1} mm").format(tool.name, f"{tool.reach_mm:g}")


def before_words(state: SetBefore, count: int) -> str:
    """Say what was set before: ``What is ticked: 12 other joints``."""
    words = {
        SetBefore.TICKED: _say("What is ticked"),
        SetBefore.ORDER: _say("What the order sets before it"),
        SetBefore.ALL: _say("All that there is"),
        SetBefore.NOTHING: _say("Nothing"),
    }
    if state is SetBefore.NOTHING:
        return words[state]
    others = _say("{0} other joints").format(count) if count else _say("nothing")
    return f"{words[state]}: {_say('1 other joint') if count == 1 else others}"


def told_html(told: TrialTold, colours: Colours) -> str:
    """Return what a trial teaches as rich text; every text is escaped."""
    held, *rest = told.sentences
    lines = [f"<p>{escape(held)}</p>", *(f"<p><b>{escape(one)}</b></p>" for one in rest)]
    if told.change:
        lines.append(
            f'<table width="100%" cellpadding="6" cellspacing="0"><tr>'
            f'<td style="background-color:{colours.stripe}; border-left:4px solid {colours.running}">'
            f"{escape(told.change)}</td></tr></table>"
        )
    first, *flips = told.flips or ("",)
    if first:
        lines.append(f"<p>{escape(first)}</p>")
    lines += [f'<p style="margin-left:12px">● {escape(flip)}</p>' for flip in flips]
    return "".join(lines)
