"""What a tool's source says of the trial its reach was learned by, and whether a new one goes against it."""

import re
from dataclasses import dataclass
from datetime import date

LEARNED = "learned at the bench on"
_SAID = {True: "it did reach", False: "it did not reach"}
_TRIAL = re.compile(
    rf"{LEARNED} (?P<on>\d{{4}}-\d\d-\d\d) at (?P<joint>\S+): (?P<said>it did (?:not )?reach), "
    r"(?P<after>\d+) others? set; (?P<former>[\d.]+) mm before"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A trial of a tool at a joint, told from a tool's source and into it.

    Attributes:
        joint: plain id, behind the slug of its pattern.
        after: how many other joints were set before.
        former_mm: what the tool's reach was taken to be before.
    """

    joint: str
    did_reach: bool
    after: int
    former_mm: float


def trial_source(trial: Trial, on: date) -> str:
    """Return a trial as a tool's source tells it."""
    others = f"{trial.after} other{'s' * (trial.after != 1)} set"
    said = f"{_SAID[trial.did_reach]}, {others}; {trial.former_mm:g} mm before"
    return f"{LEARNED} {on.isoformat()} at {trial.joint}: {said}"


def against_former(source: str, trial: Trial, tool: str, *, follows: bool) -> str:
    """Say that a trial goes against the one that a tool's reach was learned by; empty: it does not.

    It does where both are of one joint, their answers differ, and the way in was no wider when the
    tool got there than when it did not: as many others or more were set.

    Args:
        source: of the tool as it is on the shelf.
        trial: the new one; its ``former_mm`` is what the tool's reach now is.
        tool: its id.
        follows: another reach follows from the new one.
    """
    found = _TRIAL.match(source)
    if found is None or found["joint"] != trial.joint:
        return ""
    did_reach, after = found["said"] == _SAID[True], int(found["after"])
    reached, missed = (after, trial.after) if did_reach else (trial.after, after)
    if did_reach is trial.did_reach or reached < missed:
        return ""
    on, former = date.fromisoformat(found["on"]), float(found["former"])
    others = f"{after} other joint{'s' * (after != 1)}"
    told = (
        f"On {on.day} {on:%b %Y} you said that {_SAID[did_reach]} here, with {others} set, and its "
        f"reach was taken as {trial.former_mm:g} mm instead of {former:g} mm. Both cannot be."
    )
    if follows:
        return f"{told} If this trial is the right one, keep it: it takes the place of that one."
    return (
        f"{told} If this trial is the right one, write reach_mm = {former:g} back under [{tool}] in "
        "tools.toml; if that one is, leave it as it is."
    )
