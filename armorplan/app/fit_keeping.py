"""Writes what a build's fits showed into the folder of its pattern, as the pattern's next version."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.app.corrections_versions import noted
from armorplan.app.derived import Derived
from armorplan.app.draft import Refused
from armorplan.app.drafting import Home, OpenDraft, save
from armorplan.app.fit_corrections import texts_of, with_findings
from armorplan.app.fit_findings import FitFinding
from armorplan.kernel.errors import ArmorplanError


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFindings:
    """The pattern as it was written, and in words what changed."""

    opened: OpenDraft
    words: str


def keep_findings(
    opened: OpenDraft, derived: Derived, found: Iterable[tuple[str, FitFinding]]
) -> KeptFindings:
    """Write findings into the pattern's next version; the running build stays as it is.

    Args:
        opened: the pattern as its folder holds it now.
        derived: the build at whose fits it was found.
        found: by id of the dry-fit step.

    Raises:
        ArmorplanError: there is nothing new, the pattern may not be written where it lies, or
            somebody else wrote it since; nothing was changed.
    """
    made = with_findings(opened.draft, derived, found)
    if isinstance(made, Refused):
        raise ArmorplanError(made.words)
    told = texts_of(made.changes)
    draft = noted(made.draft.in_haste(), changed=told, builds=(derived.assembly.build,))
    if isinstance(draft, Refused):
        raise ArmorplanError(draft.words)
    home = save(draft, opened.home)
    if not isinstance(home, Home):
        raise ArmorplanError(f"{home.text} {home.remedy}".strip())
    version = draft.entry("pattern", "").get("version")
    return KeptFindings(
        opened=OpenDraft(draft=draft, home=home),
        words=f"Kept in version {version} of the pattern; this build stays as it is. {' '.join(told)}",
    )
