"""A large pattern: a sample laid several times beside itself, every id with its number."""

from dataclasses import replace

from armorplan.pattern.joining import Motion
from armorplan.pattern.pattern import Pattern

GAP_MM = 40.0


def tiled(pattern: Pattern, times: int) -> Pattern:
    """Return a pattern that holds another one so many times, none of them on another's spot."""
    wide_mm = max(x for part in pattern.parts for x, _ in part.outline) + GAP_MM
    laid = [_copy(pattern, f"_{n}", n * wide_mm) for n in range(times)]
    tables = ("pieces", "parts", "joints", "seams", "threads", "forms", "hardware", "movements")
    return replace(
        pattern,
        harnesses=(),
        treatments=(),
        strap_places=(),
        fit_checks=(),
        suspensions=(),
        own_steps=(),
        own_relations=(),
        overrulings=(),
        corrections=(),
        options=(),
        **{name: tuple(each for one in laid for each in getattr(one, name)) for name in tables},
    )


def askew(pattern: Pattern, by_mm: float) -> Pattern:
    """Return a pattern in which the first hole of every second turning joint lies down the page."""
    turning = [joint for joint in pattern.joints if joint.motion is Motion.TURNING][::2]
    moved = {joint.stack[0] for joint in turning}

    def down(hole):
        x, y = hole.centre
        return replace(hole, centre=(x, y + by_mm)) if hole.id in moved else hole

    parts = (replace(part, holes=tuple(map(down, part.holes))) for part in pattern.parts)
    return replace(pattern, parts=tuple(parts))


def _copy(pattern: Pattern, tag: str, off_mm: float) -> Pattern:
    def named(ids):
        return tuple(f"{each}{tag}" for each in ids)

    def laid(ring):
        return tuple((x + off_mm, y) for x, y in ring)

    def moved(part):
        here = f"{part.id}{tag}"
        holes = tuple(
            replace(h, id=f"{h.id}{tag}", part=here, centre=laid((h.centre,))[0])
            for h in part.holes
        )
        slots = tuple(
            replace(s, id=f"{s.id}{tag}", part=here, outline=laid(s.outline)) for s in part.slots
        )
        return replace(
            part,
            id=here,
            piece=f"{part.piece}{tag}",
            outline=laid(part.outline),
            holes=holes,
            slots=slots,
            hides=named(part.hides),
            only_with=(),
        )

    def tagged(entries, *keys, **more):
        for each in entries:
            lists = {key: named(getattr(each, key)) for key in keys}
            plain = {key: f"{getattr(each, key)}{tag}" for key in ("id", *more)}
            loose = {"only_with": ()} if hasattr(each, "only_with") else {}
            yield replace(each, **lists, **plain, **loose)

    return replace(
        pattern,
        pieces=tuple(tagged(pattern.pieces)),
        parts=tuple(map(moved, pattern.parts)),
        joints=tuple(tagged(pattern.joints, "stack", "layers")),
        seams=tuple(tagged(pattern.seams, "joints")),
        threads=tuple(tagged(pattern.threads, "through", "closed_by", part=True)),
        forms=tuple(
            replace(form, axis=form.axis and laid(form.axis))
            for form in tagged(pattern.forms, "parts", "seams")
        ),
        hardware=tuple(tagged(pattern.hardware, "held_by", part=True)),
        movements=tuple(tagged(pattern.movements, "parts")),
    )
