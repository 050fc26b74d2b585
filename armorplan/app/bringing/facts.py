"""What a person says of one part by itself, whatever a question bundled it with."""

from armorplan.app.bringing.answering import PART, Fact
from armorplan.app.bringing.model import Bringing


def said_facts(bringing: Bringing, fact: Fact) -> dict[str, str]:
    """Return what a person said of single parts, by the key of the part."""
    ending = f":{fact.value}"
    return {
        about.removeprefix(PART).removesuffix(ending): choice
        for about, choice in bringing.answers.items()
        if about.startswith(PART) and about.endswith(ending) and choice
    }
