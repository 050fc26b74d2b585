"""The ways back from a mistake as rows, for the window, the bench view and the command line."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """A step that cannot be done any more in a valid way, or only with more effort.

    Attributes:
        why: the reasons, as whole sentences.
        harder: it can still be done, only harder.
    """

    step: str
    title: str
    why: str
    harder: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WayBackMove:
    """One move of a way back.

    Attributes:
        id: unique among the moves of its way.
        opens: it takes back something that stands; else it does something.
        title: what to do, as a sentence's beginning.
        detail: how, with sizes; may be empty.
        means: what it rests on, as ``orders.recovery.model.Means`` names it; empty: usual work.
        step: the step of the build that stands after it; empty where it is no step of the build.
        clears: steps of the build that do not stand any more after it.
        in_spite_of: relations it does not heed, each as the sentence of its reason.
        minutes: hands-on.
        wait_min: that time alone takes.
        risk_pct: how likely it spoils what it works on.
        hardware: (what, how many) it uses up.
        leaves: what stays for good; may be empty.
        left_out: the step is not done at all: it is lived without.
        group: what is worked in one go with its neighbours of the same group: a row; may be empty.
    """

    id: str
    opens: bool
    title: str
    detail: str = ""
    means: str = ""
    step: str = ""
    clears: tuple[str, ...] = ()
    in_spite_of: tuple[str, ...] = ()
    minutes: float = 0.0
    wait_min: float = 0.0
    risk_pct: float = 0.0
    tool: str = ""
    cautions: tuple[str, ...] = ()
    hardware: tuple[tuple[str, int], ...] = ()
    leaves: str = ""
    left_out: bool = False
    group: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayBack:
    """One way back, its moves in order.

    Attributes:
        id: the same while it is asked of the same state.
        means: what it mainly rests on.
        minutes: hands-on.
        wait_min: waiting, one thing after the other.
        risk_pct: how likely at least one of its moves spoils something.
        risk: the same in words, without the number.
        hardware: (what, how many) it uses up in all.
        leaves: what stays for good.
        price: all of it in minutes at the bench: waiting, hardware and what may be lost weighed in.
        is_best: it is the one to take, where nothing else counts.
        is_risky: it is riskier than a maker should take where another leads back.
        proved: no way of its kind costs less.
        gap_pct: how far it may be from the best of its kind; 0 where that is proved.
        finish: what it does to the finish date, where that is known.
    """

    id: str
    title: str
    means: str
    moves: tuple[WayBackMove, ...]
    minutes: float
    wait_min: float
    risk_pct: float
    risk: str
    hardware: tuple[tuple[str, int], ...] = ()
    leaves: tuple[str, ...] = ()
    price: float = 0.0
    is_best: bool = False
    is_risky: bool = False
    proved: bool = True
    gap_pct: float = 0.0
    finish: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysBack:
    """What is wrong in a state, and the ways back, the best first.

    Attributes:
        stuck: the steps that it bars or makes harder.
        mistakes: what the maker told, each as a sentence.
        taken: titles of steps that were not ticked but have to stand already.
        ways: empty where nothing is wrong, or where nothing leads back.
        told: the answer in a sentence.
    """

    stuck: tuple[Stuck, ...]
    mistakes: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()
    ways: tuple[WayBack, ...] = ()
    told: str = ""
