"""What can be told only of the whole pattern: sides that do not meet, parts cut more than once."""

from collections.abc import Iterator

from armorplan.files.faults import listed
from armorplan.files.tables import Table
from armorplan.pattern.parts import MadeOn, Part, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import Apart, Mixed, mixed_entries, paired_parts, thread_hosts


def check_whole(top: Table, pattern: Pattern) -> None:
    """Tell what only the whole shows; the pattern was read without error."""
    for entry in mixed_entries(pattern):
        if isinstance(entry, Mixed):
            _tell_mixed(top, entry)
        else:
            _tell_apart(top, entry)
    _check_shared_holes(top, pattern)
    _check_counts(top, pattern)
    _check_pieces(top, pattern)
    _check_unnamed_holes(top, pattern)


def _tell_mixed(top: Table, mixed: Mixed) -> None:
    ways = "" if mixed.table in _ONLY_BOTH else 'write made_on = "left" or "right", or '
    mend = (
        f"{ways}put both in pieces that are mirrored, or in pieces that are not, with the left and "
        "the right drawn as parts of their own."
    )
    top.table(mixed.table).fault(
        mixed.id,
        "single-to-pair",
        f"'{mixed.id}' brings '{mixed.once}', which is made once, together with "
        f"'{mixed.paired}', which is made left and right: one hole cannot serve both sides.",
        mend=mend[0].upper() + mend[1:],
    )


_ONLY_BOTH = frozenset({"seams", "forms", "hardware"})


def _tell_apart(top: Table, apart: Apart) -> None:
    left, right = (
        f'its own made_on is "{side}"' if name == apart.id else f"'{name}' is made on the {side}"
        for name, side in ((apart.on_left, "left"), (apart.on_right, "right"))
    )
    top.table(apart.table).fault(
        apart.id,
        "no-common-side",
        f"'{apart.id}' is made on no side: {left}, {right}.",
        mend="Mend made_on so that all it brings together is made on one side at least.",
    )


def _check_shared_holes(top: Table, pattern: Pattern) -> None:
    """Tell a hole that a left and a right joint share, in a part that is made once."""
    paired = paired_parts(pattern)
    claimed: dict[str, str] = {}
    for joint in pattern.joints:
        if joint.made_on is MadeOn.BOTH:
            continue
        for hole in joint.stack:
            other = claimed.setdefault(hole, joint.id)
            part = pattern.hole(hole).part
            if other != joint.id and part not in paired:
                top.table("joints").table(joint.id).fault(
                    "stack",
                    "hole-in-two-joints",
                    f"The hole '{hole}' is already in the stack of '{other}', and '{part}' is made "
                    "once.",
                    mend="Draw a hole for each side in it.",
                    about=(joint.id, other),
                )


def _check_counts(top: Table, pattern: Pattern) -> None:
    """Tell parts that are cut more than once and yet held by something: which of them is it?"""
    holders: dict[str, str] = {}
    for held, holder in _holders(pattern):
        holders.setdefault(held, holder)
    for part in pattern.parts:
        if part.count > 1 and part.id in holders:
            _tell_count(top, part, holders[part.id])


def _tell_count(top: Table, part: Part, holder: str) -> None:
    top.table("parts").table(part.id).fault(
        "count",
        "several-held",
        f"The part '{part.id}' is cut {part.count} times, and {holder} names it: which of them?",
        mend="Cut it once, and draw the others as parts of their own, each with its holes.",
        about=(part.id,),
    )


def _check_pieces(top: Table, pattern: Pattern) -> None:
    """Warn of pieces that no part names: nothing of them is made."""
    made = {part.piece for part in pattern.parts}
    for piece in pattern.pieces:
        if piece.id not in made:
            top.faults.warning(
                "piece-without-parts",
                f'No part belongs to the piece "{piece.id}"; nothing of it is made.',
                mend=f'Write piece = "{piece.id}" at its parts, or take the piece out.',
                place=top.table("pieces").table(piece.id).place(),
                about=(piece.id,),
            )


def _check_unnamed_holes(top: Table, pattern: Pattern) -> None:
    """Note holes that nothing names, by name; a table [holes.ID] says that one is meant so.

    Straps are left out, whose holes a tongue or a stud takes, and parts that carry hardware.
    """
    if not pattern.joints:  # A pattern just begun names none of them.
        return
    named = {hole for joint in pattern.joints for hole in joint.stack}
    named |= {hole for place in pattern.strap_places for hole in place.holes}
    named |= top.table("holes").values.keys()
    carriers = {use.part for use in pattern.hardware}
    for part in pattern.parts:
        if part.kind is PartKind.STRAP or part.id in carriers:
            continue
        left = [hole.id for hole in part.holes if hole.id not in named]
        if left:
            top.faults.note(
                "hole-unnamed",
                f'No joint and no strap place names {listed(left)} in "{part.id}".',
                mend="Name it in a stack, or write a table [holes.ID] where it stays empty.",
                place=top.table("parts").table(part.id).place(),
                about=(part.id, *left),
            )


def _holders(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Yield each part that something holds, and what."""
    for joint in pattern.joints:
        for part in pattern.stack_parts(joint.id):
            yield part, f"joint '{joint.id}'"
    for thread in pattern.threads:
        for part in (thread.part, *thread_hosts(pattern, thread)):
            yield part, f"thread '{thread.id}'"
    for use in pattern.hardware:
        yield use.part, f"hardware '{use.id}'"
