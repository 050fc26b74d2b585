"""Tables at the top of a pattern under a name that nothing reads, and what follows from them."""

from collections.abc import Mapping

from armorplan.files.faults import Faults
from armorplan.files.tables import Table
from armorplan.kernel.findings import has_errors


def only_their_own(
    faults: Faults, mended: Faults, *, meant: Mapping[str, str], top: Table
) -> Faults:
    """Return the misnamed tables first, and of the other faults those that mending them leaves.

    A misnamed table costs no more than a warning where nothing is missing without it.

    Args:
        faults: of the pattern as it is written.
        mended: of the same pattern with the names that are meant.
        meant: for each misnamed table the one that is meant.
        top: the pattern's whole file.
    """
    left = frozenset(mended.findings)
    follows = [f for f in faults.findings if f not in left]
    told = Faults()
    tell = told.error if has_errors(follows) else told.warning
    for name, right in meant.items():
        tell(
            "unknown-table",
            f"There is no table [{top.name_of(name)}]; perhaps [{right}] is meant.",
            mend=f"Write {right} in place of {top.name_of(name)}.",
            place=top.place(name),
        )
    told.put(*(f for f in faults.findings if f in left))
    return told
