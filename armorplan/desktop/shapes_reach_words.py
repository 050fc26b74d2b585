"""What the section of a way in shows, said in words: the same for the eye and for the ear."""

from collections.abc import Iterator
from enum import StrEnum

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.colours import Colours
from armorplan.geometry.ways_in import (
    Ends,
    Fits,
    Getting,
    ReachPicture,
    Section,
    SectionTool,
    SectionWay,
    ends,
    missing_mm,
)

_MM = "\N{NO-BREAK SPACE}mm"
_EVEN_MM = 1.0
"""Two depths nearer to each other than this are told as one."""


class Tone(StrEnum):
    """How a section turns out; each has a colour and a sign."""

    GOOD = "good"
    DOUBT = "doubt"
    BAD = "bad"


_SIGNS = {Tone.GOOD: "✓", Tone.DOUBT: "▲", Tone.BAD: "✖"}


def _say(text: str) -> str:
    return QCoreApplication.translate("shapes", text)


def whole_mm(value_mm: float) -> str:
    """Write a length in whole millimetres; what is less than one, to a tenth."""
    digits = 1 if 0 < abs(value_mm) < 1 else 0
    return f"{value_mm:.{digits}f}{_MM}"


def tone_of(section: Section) -> Tone:
    """Return how a section turns out."""
    way, tool = section.way, section.tool
    if section.getting is Getting.CANNOT:
        return Tone.BAD
    if section.getting is Getting.DOUBTFUL:
        return Tone.DOUBT
    if way is None or tool is None:
        return Tone.GOOD
    return Tone.GOOD if ends(way, tool) is Ends.BEYOND else Tone.DOUBT


def tone_sign(tone: Tone) -> str:
    """Return the character that stands for it in running text."""
    return _SIGNS[tone]


def tone_colour(tone: Tone, colours: Colours) -> str:
    """Return the colour of its sign, its words and its lines."""
    return {Tone.GOOD: colours.ready, Tone.DOUBT: colours.drying, Tone.BAD: colours.alarm}[tone]


def gap_words(way: SectionWay, tool: SectionTool) -> str:
    """Say what a tool misses or has to spare: ``30 mm short``, ``75 mm to spare``."""
    least_mm, most_mm = missing_mm(way, tool)
    match ends(way, tool):
        case Ends.BEYOND:
            return _say("{0} to spare").format(whole_mm(-most_mm))
        case Ends.BETWEEN:
            return _say("up to {0} short").format(whole_mm(most_mm))
    if most_mm - least_mm < _EVEN_MM:
        return _say("{0} short").format(whole_mm(least_mm))
    return _say("at least {0} short").format(whole_mm(least_mm))


def verdict_words(section: Section) -> str:
    """Say in a few words how a section turns out."""
    way, tool = section.way, section.tool
    if section.getting is Getting.FLAT:
        return _say("lies flat, any tool serves")
    if way is None or tool is None:
        if section.getting is Getting.CANNOT:
            return _say("no opening is left for a tool")
        if section.getting is Getting.DOUBTFUL:
            return _say("how far in a tool gets is not known")
        return _say("on a shaped part")
    if tool.fits is Fits.NOT:
        return _say("no tool goes in")
    return tool_words(way, tool)


def depth_words(way: SectionWay) -> str:
    """Say how deep a joint lies: ``lies 280 to 320 mm in``; of a hollow shape only the most."""
    if way.hollow:
        return _say("lies up to {0} in").format(whole_mm(way.along_mm))
    if way.along_mm - way.least_mm < _EVEN_MM:
        return _say("lies {0} in").format(whole_mm(way.along_mm))
    return _say("lies {0} to {1} in").format(f"{way.least_mm:.0f}", whole_mm(way.along_mm))


def opening_words(way: SectionWay, *, is_cut: bool = False) -> str:
    """Say which opening it is and how wide: ``mouth 2, 78 mm``; and that it is drawn less wide."""
    if way.opening_mm is None:
        return _say("{0}, wide open").format(way.name)
    said = _say("{0}, at most {1}") if way.at_most else "{0}, {1}"
    if is_cut:
        said = _say("{0} (drawn narrower)").format(said)
    return said.format(way.name, whole_mm(way.opening_mm))


def refused_words(way: SectionWay, tool: SectionTool) -> str:
    """Say why an opening does not let a tool in."""
    if way.squashed_mm is None:
        return _say("does not go in: takes {0}").format(whole_mm(tool.thick_mm))
    said = _say("does not go in: takes {0}, squashed it gives {1}")
    return said.format(whole_mm(tool.thick_mm), whole_mm(way.squashed_mm))


def tool_words(way: SectionWay, tool: SectionTool) -> str:
    """Say how far a tool gets by a way, or why it does not go in."""
    if tool.fits is Fits.NOT:
        return refused_words(way, tool)
    squashed = tool.fits is Fits.SQUASHED
    return (_say("{0}, squashed wider") if squashed else "{0}").format(gap_words(way, tool))


def reach_sentences(picture: ReachPicture) -> str:
    """Say a picture in whole sentences, state by state."""
    return " ".join(line for section in picture.sections for line in _told(picture, section))


def _told(picture: ReachPicture, section: Section) -> Iterator[str]:
    when = f"{section.when[:1].upper()}{section.when[1:]}"
    yield _say("{0}, '{1}': {2}.").format(when, picture.joint, verdict_words(section))
    way, tool = section.way, section.tool
    if way is None or tool is None:
        return
    yield _say("Seen from the {0}, it {1}.").format(opening_words(way), depth_words(way))
    for each in section.tools:
        yield _named_words(way, each)


def _named_words(way: SectionWay, tool: SectionTool) -> str:
    named = _say("{0}, {1} long").format(tool.name, whole_mm(tool.reach_mm))
    return f"{named}: {tool_words(way, tool)}."
