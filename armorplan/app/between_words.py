"""The words around an answer to which of two comes first, for the terminal and the window alike."""

from armorplan.app.between_links import BetweenLink
from armorplan.app.between_rows import BetweenRow
from armorplan.assembly.model import Side
from armorplan.kernel.units import about_words


def side_words(row: BetweenRow) -> str:
    """Say on which side of the wearer both are looked at; empty where there is but one."""
    return "" if row.side == Side.SINGLE else f"(Looked at on the {row.side}.)"


def numbered(row: BetweenRow, at: int) -> str:
    """Return the number of a relation of the chain; empty where it is the only one."""
    return f"{at + 1}. " if len(row.chain) > 1 else ""


def aside_mark(link: BetweenLink) -> str:
    """Return how a relation that is not reckoned with is marked."""
    return "overruled: " if link.overruled else "not kept: "


def link_words(link: BetweenLink) -> str:
    """Return why a relation holds, its numbers, and why it is not reckoned with."""
    rest = [link.text]
    if link.numbers:
        rest.append(f"Numbers: {'; '.join(link.numbers)}.")
    if link.likewise:
        rest.append(link.likewise)
    if link.note:
        rest.append(link.note)
    return " ".join(rest)


def link_foot(link: BetweenLink) -> str:
    """Return a relation's force, minutes, rule and source."""
    price = f", {about_words(link.price_min)}" if link.price_min else ""
    return f"{link.force}{price} [{link.rule}] Source: {link.source}"
