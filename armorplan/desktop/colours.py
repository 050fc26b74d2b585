"""The colours of both themes as data, and every pair that has to be told apart.

Hues follow Okabe and Ito, darkened for light grounds and lightened for dark ones: their raw
values fail as text on white except blue. Colour never stands alone; see ``glyphs`` for shapes.
"""

from dataclasses import dataclass

from armorplan.app.rows import BenchState

TEXT_RATIO = 4.5
"""Least contrast of text (WCAG 2.2, success criterion 1.4.3)."""
MARK_RATIO = 3.0
"""Least contrast of marks and parts of controls (WCAG 2.2, success criterion 1.4.11)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Colours:
    """One theme. Every field is ``#rrggbb``.

    ``window``, ``panel`` and ``stripe`` are grounds; ``chosen`` is the ground of what is chosen;
    ``bar`` lies under the timers. ``line`` bounds controls, ``focus`` is the ring of the one that
    has the keyboard. ``leather`` fills a part, ``strap`` a strap, ``edge`` draws outlines, and
    ``night`` shades closed hours.
    """

    dark: bool
    window: str
    panel: str
    stripe: str
    chosen: str
    bar: str
    text: str
    quiet: str
    line: str
    focus: str
    strong: str
    strong_text: str
    alarm: str
    alarm_text: str
    leather: str
    strap: str
    edge: str
    night: str
    ready: str
    waiting: str
    running: str
    paused: str
    drying: str
    done: str
    early: str

    def state(self, state: BenchState) -> str:
        """Return the colour of a state's mark and word."""
        return {
            BenchState.READY: self.ready,
            BenchState.WAITING: self.waiting,
            BenchState.RUNNING: self.running,
            BenchState.PAUSED: self.paused,
            BenchState.DRYING: self.drying,
            BenchState.DONE: self.done,
            BenchState.EARLY: self.early,
            BenchState.MISSED: self.alarm,
        }[state]


LIGHT = Colours(
    dark=False,
    window="#efece6",
    panel="#fcfbf8",
    stripe="#f5f2ec",
    chosen="#dbe8f1",
    bar="#e4dfd5",
    text="#1d1a16",
    quiet="#57524a",
    line="#7d776c",
    focus="#005f96",
    strong="#005f96",
    strong_text="#ffffff",
    alarm="#a33a00",
    alarm_text="#ffffff",
    leather="#d9b48c",
    strap="#c9a98a",
    edge="#4a3826",
    night="#dcd7cc",
    ready="#00624a",
    waiting="#57524a",
    running="#005a8e",
    paused="#8a3467",
    drying="#7a4f00",
    done="#4b463e",
    early="#a33a00",
)

DARK = Colours(
    dark=True,
    window="#191816",
    panel="#22201d",
    stripe="#282623",
    chosen="#17384d",
    bar="#302d29",
    text="#f1ede5",
    quiet="#bcb5a9",
    line="#8d867a",
    focus="#6cc0f2",
    strong="#6cc0f2",
    strong_text="#10202b",
    alarm="#ff9a63",
    alarm_text="#2b1204",
    leather="#6b4f35",
    strap="#5a4736",
    edge="#e2cdb3",
    night="#121110",
    ready="#3fcfa4",
    waiting="#bcb5a9",
    running="#6cc0f2",
    paused="#e6a6cb",
    drying="#f0b13c",
    done="#c9c2b6",
    early="#ff9a63",
)


@dataclass(frozen=True, slots=True)
class Pair:
    """A colour on a ground, and the contrast it must have at least."""

    name: str
    on: str
    front: str
    ground: str
    least: float


def pairs(colours: Colours) -> tuple[Pair, ...]:
    """Return every pair of a theme that a person has to read or tell apart."""
    grounds = ("window", "panel", "stripe", "chosen", "bar")
    states = ("ready", "waiting", "running", "paused", "drying", "done", "early")
    found = [
        Pair(front, ground, getattr(colours, front), getattr(colours, ground), TEXT_RATIO)
        for front in ("text", "quiet", "alarm", *states)
        for ground in grounds
    ]
    found += [
        Pair(f"{name}_text", name, getattr(colours, f"{name}_text"), getattr(colours, name), 4.5)
        for name in ("strong", "alarm")
    ]
    found += [
        Pair(front, ground, getattr(colours, front), getattr(colours, ground), MARK_RATIO)
        for front in ("line", "focus")
        for ground in grounds
    ]
    found += [
        Pair("edge", ground, colours.edge, getattr(colours, ground), MARK_RATIO)
        for ground in ("leather", "strap", "panel")
    ]
    found += [
        Pair("text", ground, colours.text, getattr(colours, ground), TEXT_RATIO)
        for ground in ("leather", "strap", "night")
    ]
    return tuple(found)
