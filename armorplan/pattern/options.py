"""Build options: choices that change which parts, steps, minutes and litres a build has."""

from dataclasses import dataclass

from armorplan.pattern.joining import Applying


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice of an option and what it changes, beside what carries ``only_with`` for it.

    Attributes:
        tooling: ``False`` leaves all tooling out.
        by_machine: parts are cut on a machine (laser or cutting table) instead of by hand.
        applying: every treatment is put on this way; ``None`` leaves each as it is written.
        times: factor on the hands-on minutes by step kind, such as ``{"cut": 1.5}``.
    """

    id: str
    name: str
    tooling: bool = True
    by_machine: bool = False
    applying: Applying | None = None
    times: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """Something a maker decides for each build. ``chosen`` is the id of the choice in force."""

    id: str
    name: str
    choices: tuple[Choice, ...]
    chosen: str
    notes: str = ""

    @property
    def in_force(self) -> Choice:
        """The chosen choice; KeyError where it is not one of them."""
        return {choice.id: choice for choice in self.choices}[self.chosen]
