"""The layers of a joint as rows, the outermost first, and what it takes to order them anew."""

from dataclasses import dataclass, replace

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.joints import set_layers_order, set_row_order, set_stack_order
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.geometry.pictures import StackPicture
from armorplan.geometry.posts.measuring import stack_picture
from armorplan.geometry.stacks import joint_post
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers:
    """A joint's layers.

    Attributes:
        rows: hole (of a glued or stitched joint: part) and what it is called, the outermost first.
        parts: the parts of the rows.
        seam: the row the joint is in; empty where it is in none.
        is_stack: its layers are holes that a fastener goes through.
        is_whole: the order is meant for the whole row.
    """

    joint: str
    rows: tuple[tuple[str, str], ...]
    parts: tuple[str, ...]
    seam: str = ""
    is_stack: bool = True
    is_whole: bool = False
    picture: StackPicture | None = None

    def in_order(self, keys: tuple[str, ...], *, is_whole: bool) -> "Layers":
        """Return them in another order."""
        named, parts = dict(self.rows), dict(zip(dict(self.rows), self.parts, strict=True))
        return replace(
            self,
            rows=tuple((key, named[key]) for key in keys),
            parts=tuple(parts[key] for key in keys),
            is_whole=is_whole,
        )

    def put(self, draft: Draft) -> Draft | Refused:
        """Return a draft whose layers lie so."""
        keys = tuple(key for key, _ in self.rows)
        if self.is_whole:
            return set_row_order(draft, self.seam, tuple(dict.fromkeys(self.parts)))
        if self.is_stack:
            return set_stack_order(draft, self.joint, keys)
        return set_layers_order(draft, self.joint, keys)


def layers_of(scene: TableScene, shelf: Shelf, joint_id: str) -> Layers:
    """Return the layers of a joint, with its section where it has a post."""
    pattern = scene.pattern
    joint = pattern.joint(joint_id)
    parts = pattern.stack_parts(joint_id)
    keys = joint.stack or joint.layers
    names = [pattern.part(part).name for part in parts]
    seams = (seam.id for seam in pattern.seams if joint_id in seam.joints)
    return Layers(
        joint=joint_id,
        rows=tuple(
            (key, f"{name} – {key}" if joint.stack else name)
            for key, name in zip(keys, names, strict=True)
        ),
        parts=parts,
        seam=next(seams, ""),
        is_stack=bool(joint.stack),
        picture=_picture(pattern, shelf, joint_id),
    )


def _picture(pattern: Pattern, shelf: Shelf, joint_id: str) -> StackPicture | None:
    joint = pattern.joint(joint_id)
    post = joint_post(pattern, shelf, joint)
    return None if post is None else stack_picture(pattern, post, joint)
