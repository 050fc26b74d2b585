"""What to say of a name that stands for no work: a hole's id, or something that is none."""

from collections.abc import Iterable
from difflib import get_close_matches

from armorplan.app.derived import Derived
from armorplan.geometry.told import listed, quoted
from armorplan.rules.own_names import step_name
from armorplan.steps.naming import lowered

_OFFERED = 4
_LIKE = 0.6


def misnamed(derived: Derived, name: str) -> str:
    """Return that nothing can be asked of a name, and what can."""
    return _hole(derived, name) or _unknown(derived, name)


def _hole(derived: Derived, name: str) -> str:
    """Say what a hole or slot belongs to and what is done through it; empty: it is none."""
    for part in derived.pattern.parts:
        whats = [("hole", hole.id) for hole in part.holes] + [("slot", s.id) for s in part.slots]
        what = next((what for what, each in whats if each == name), "")
        if what:
            said = f"'{name}' is a {what} of {lowered(part.name)}."
            return f"{said} {_through(derived, name)}"
    return ""


def _through(derived: Derived, name: str) -> str:
    joints = [joint.id for joint in derived.pattern.joints if name in joint.stack]
    threads = [thread.id for thread in derived.pattern.threads if name in thread.through]
    if joints:
        one = len(joints) == 1
        return f"Name the joint{'' if one else 's'} on it: {listed(quoted(joints))}."
    if threads:
        return f"Name what is threaded through it: {listed(quoted(threads))}."
    return "No joint is on it; name its part or a joint."


def _unknown(derived: Derived, name: str) -> str:
    near = _near(name, _known(derived)) or _titled(derived, name)
    mend = (
        f"Near to it: {', '.join(near)}."
        if near
        else "Write the id or the name of a joint, row, form or part of the pattern, or of a step as "
        "'armorplan order' lists them; the last part of a step's id will do."
    )
    return f"Nothing in this pattern is called '{name}'. {mend}"


def _titled(derived: Derived, name: str) -> list[str]:
    """Return steps that have a name in their title, as they are written without a side."""
    wanted = name.casefold()
    found = (step_name(s) for s in derived.work.steps if wanted and wanted in s.title.casefold())
    return list(dict.fromkeys(found))[:_OFFERED]


def _near(name: str, known: Iterable[str]) -> list[str]:
    """Return what is written alike, ids before names; capitals make no difference."""
    lower = {each.casefold(): each for each in reversed(list(known))}
    found = get_close_matches(name.casefold(), list(lower), n=_OFFERED, cutoff=_LIKE)
    return [lower[each] for each in found]


def _known(derived: Derived) -> dict[str, None]:
    assembly = derived.assembly
    return dict.fromkeys(
        (
            *(j.joint.id for j in assembly.joints),
            *(s.seam.id for s in assembly.seams),
            *(f.form.id for f in assembly.forms),
            *(p.part.id for p in assembly.parts),
            *(s.seam.name for s in assembly.seams),
            *(p.part.name for p in assembly.parts),
            *(step_name(step) for step in derived.work.steps),
        )
    )
