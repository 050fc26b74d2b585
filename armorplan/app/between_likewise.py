"""What is said of one step and holds of others likewise: told once, of the gravest."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from armorplan.app.between_links import BetweenLink
from armorplan.app.derived import Derived
from armorplan.app.reach_between import BothWays
from armorplan.app.why_between import Between
from armorplan.geometry.told import listed
from armorplan.kernel.units import about_words
from armorplan.relations.index import first_and_members, is_plain
from armorplan.rules.reaching import ALONG, BY_REACH, NEEDS

_NAMED = 4


def told_once(derived: Derived, links: Iterable[BetweenLink]) -> tuple[BetweenLink, ...]:
    """Return links with those that say the same of several steps as one: the first of them."""
    groups: list[list[BetweenLink]] = []
    for link in links:
        host = next((some for some in groups if _is_likewise(derived, some[0], link)), None)
        if host is None:
            groups.append([link])
        elif link not in host:
            host.append(link)
    return tuple(_as_one(derived, some) for some in groups)


def is_told(found: Between, ways: BothWays) -> bool:
    """Tell whether a relation of the chain says already by reach how the same step is set after."""
    asked = {*found.then, *found.firsts}
    told = (first_and_members(r) for r in found.chain if r.reason.rule in BY_REACH and is_plain(r))
    return any(first == ways.step and asked.issuperset(members) for first, members in told)


def _is_likewise(derived: Derived, head: BetweenLink, link: BetweenLink) -> bool:
    same = (head.rule, head.force, head.overruled, head.note)
    if same != (link.rule, link.force, link.overruled, link.note) or not (
        head.first and link.first
    ):
        return False
    if link.rule in BY_REACH:
        # Along a row the further in, the more of it comes behind.
        return set(link.of) <= {*head.of, head.first}
    return link.of == head.of and _plain(derived, head) == _plain(derived, link)


def _plain(derived: Derived, link: BetweenLink) -> str:
    return link.text.replace(_title(derived, link), "")


def _title(derived: Derived, link: BetweenLink) -> str:
    return f"'{derived.work.step(link.first).title}'"


def _as_one(derived: Derived, links: Sequence[BetweenLink]) -> BetweenLink:
    head, *rest = links
    if not rest:
        return head
    others = [link for link in rest if link.first != head.first]
    told = [f"{_title(derived, link)}{_numbers(link)}" for link in others]
    merged = replace(
        head,
        likewise=f"Likewise {listed(told, named=_NAMED)}." if told else "",
        price_min=head.price_min + sum(link.price_min for link in others),
    )
    if any(link.of != head.of for link in others):
        return merged
    titles = listed([_title(derived, head), *(_title(derived, link) for link in others)])
    behind = head.order.removeprefix(_title(derived, head))
    return replace(merged, order=f"{titles}{', each' * bool(others)}{behind}")


def _numbers(link: BetweenLink) -> str:
    words = list(_said(link))
    return f" ({', '.join(words)})" if words else ""


def _said(link: BetweenLink) -> Iterator[str]:
    known = {number.name: number.value for number in link.exact}
    if ALONG in known:
        yield f"{known[ALONG]:.0f} mm in"
    if NEEDS in known and not link.price_min:
        yield f"needs at least {known[NEEDS]:.0f} mm"
    if link.price_min:
        yield f"about {about_words(link.price_min)}"
