"""What was agreed about a build: when it is due, from when on it can be worked at, its weight."""

from dataclasses import dataclass
from datetime import datetime

LEAST_WEIGHT, MOST_WEIGHT = 1, 100


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildOrder:
    """What was agreed about one build of a workshop.

    Attributes:
        build: the build's id.
        due_at: when it has to be done; ``None``: nothing was promised.
        ready_at: it cannot be begun sooner: the leather comes then; ``None``: at any time.
        weight: what a minute of its lateness counts, beside the other builds' ones.
        wearer: who it is fitted on; empty: the shop's only wearer, where it has one.
        after: ids of builds that are finished before it begins.
        in_hand: it is planned together with the others; else it is laid aside.
        source: the shop file it was ordered in; empty where it was begun at the bench.
        key: which order of that file, such as ``maud_arm`` or ``buckles#2``.
        told: what the file said of it when it was read last.
    """

    build: str
    due_at: datetime | None = None
    ready_at: datetime | None = None
    weight: int = 1
    in_hand: bool = True
    wearer: str = ""
    after: tuple[str, ...] = ()
    source: str = ""
    key: str = ""
    told: str = ""
