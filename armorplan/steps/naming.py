"""Step ids and the words in step titles. An id says what the step is, never where it stands."""

from armorplan.assembly.model import Assembly, Side
from armorplan.steps.model import Step, StepKind


def step_id(build: str, piece: str, side: Side, kind: StepKind, subject: str) -> str:
    """Return ``build/piece/side/kind/subject``, blanks of the kind written as hyphens."""
    return f"{build}/{piece}/{side.value}/{kind_slug(kind)}/{subject}"


def tray_id(build: str, piece: str, side: Side, name: str) -> str:
    """Return the id of the group of steps worked in one go."""
    return f"{build}/{piece}/{side.value}/tray/{name}"


def kind_slug(kind: StepKind) -> str:
    """Return a kind as it stands in ids."""
    return kind.value.replace(" ", "-")


def plain_subject(step: Step) -> str:
    """Return a step's subject without its side: ``colour.coat-1`` for ``colour.left.coat-1``.

    Where the subject carries the mark of the side twice, the last is the side's.
    """
    subject = step.id.rsplit("/", 1)[-1]
    if step.side is Side.SINGLE:
        return subject
    head, _, tail = f"{subject}.".rpartition(f".{step.side}.")
    return f"{head}.{tail}".rstrip(".") if head else subject


def part_name(assembly: Assembly, part_id: str) -> str:
    """Return a sided part's name as a maker says it: ``Middle petal`` or ``Cuff (left)``."""
    sided = assembly.part(part_id)
    return with_side(sided.part.name, sided.side)


def piece_name(assembly: Assembly, piece: str, side: Side) -> str:
    """Return the name of a piece or harness, with its side where it is one of a pair."""
    called = {p.id: p.name for p in assembly.pattern.pieces}
    called |= {h.id: h.name for h in assembly.pattern.harnesses}
    return with_side(called[piece], side)


def with_side(name: str, side: Side) -> str:
    """Return a name with its side, where it is made for one."""
    return name if side is Side.SINGLE else f"{name} ({side})"


def lowered(words: str) -> str:
    """Return words as they stand inside a sentence; initials, as in ``D-ring``, stay."""
    return words[:1].lower() + words[1:] if words[1:2].islower() else words


def names(assembly: Assembly, part_ids: tuple[str, ...]) -> str:
    """Return part names as a list in words; more than four are counted."""
    found = [part_name(assembly, part) for part in part_ids]
    if len(found) > 4:  # noqa: PLR2004 - a longer list no longer reads as a title
        return f"{len(found)} parts"
    return " and ".join([", ".join(found[:-1]), found[-1]] if len(found) > 1 else found)
