"""Who may sign a kind of step off: somebody else, who does it alone or is named from outside."""

from armorplan.workshop.shop import Person, Shop
from armorplan.workshop.skill_how import SkillHow

_RANK = (SkillHow.NOT_YET, SkillHow.BESIDE, SkillHow.ALONE)


def why_not(shop: Shop, who: Person, kind: str, how: SkillHow, by: str) -> str:
    """Return why somebody's word does not sign a skill off; empty: it does.

    To do less than before, and to do as the shop's file says, may be said by anybody.

    Args:
        shop: as it stands, with what was signed off before.
        who: whose skill.
        kind: the kind of step.
        how: what is to hold of it.
        by: who says so, by name or id; of the shop or not.
    """
    if how not in _RANK or _RANK.index(how) < _RANK.index(who.how(kind)):
        return ""
    signer = shop.called(by)
    if signer is who:
        return f"Nobody signs off their own work. {_who_may(shop, who, kind)}"
    if signer is not None and not signer.does(kind):
        return f"{signer.name} does not do '{kind}' alone. {_who_may(shop, who, kind)}"
    return ""


def _who_may(shop: Shop, who: Person, kind: str) -> str:
    able = [person.name for person in shop.people if person is not who and person.does(kind)]
    if able:
        return f"Let it be said by {' or '.join(able)}, or name somebody from outside who saw it."
    alone = (
        "Nobody else works in this shop"
        if len(shop.people) == 1
        else "Nobody else here does it alone"
    )
    return f"{alone}: name somebody from outside who saw it."
