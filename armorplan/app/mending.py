"""What ways back that were chosen make of a build: which steps they add, open, leave out."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from armorplan.ledger.mends import Mend

WAY_BACK = "way-back"
"""The rule of the relations that keep the moves of a way back in their order."""
REFIT = "refit-after-change"
"""The rule of the relations by which a changed part is tried before it is fixed."""


OF_WAYS = frozenset((WAY_BACK, REFIT))
"""No pattern overrules these: the way back itself is given up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way back that is followed.

    Attributes:
        id: its step in the ledger, ``build/mend/name``.
        mend: what was chosen; of one given up only the moves done.
        told: names the entry that chose it.
    """

    id: str
    mend: Mend
    told: str

    @property
    def name(self) -> str:
        """What its steps are named by."""
        return self.id.rpartition("/")[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mending:
    """Ways back in a build, and what they make of its steps.

    Attributes:
        ways: in the order they were chosen.
        opens: by the step of a move, the steps that stand no more once it is done.
        steps: by the id of a way, the steps of its moves that are to be done, in order: its own
            and those of the build.
        own: steps that are there only for a way back.
        left_out: steps of the pattern that are not done.
        part: by the step that tries a changed part, that part.
    """

    ways: tuple[Way, ...]
    opens: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    steps: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    own: frozenset[str] = frozenset()
    left_out: frozenset[str] = frozenset()
    part: Mapping[str, str] = field(default_factory=dict)


def is_of_way(tail: str) -> bool:
    """Tell whether a step, named without its build, or a way back itself, is there only for one."""
    return "/mend/" in f"/{tail}" or tail.endswith(".mend")
