"""A way back that was chosen, as the text of its entry: enough to follow it without searching again.

Steps are named without their build, so that a build that goes on from another can take it over.
"""

import json
from dataclasses import asdict, dataclass
from functools import lru_cache
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class MendMove:
    """One move of a way back.

    Attributes:
        opens: it takes back something that stands; else it does something.
        title: what to do.
        means: what it rests on; empty: usual work.
        step: the step of the build that stands after it; empty where it is no step of the build.
        clears: steps of the build that do not stand any more after it.
        in_spite_of: the sentences of the reasons that it does not heed.
        minutes: hands-on.
        wait_min: that time alone takes.
        risk_pct: how likely it spoils what it works on.
        leaves: what stays for good.
        left_out: the step is not done at all: the maker lives with it.
    """

    title: str
    opens: bool = False
    means: str = ""
    step: str = ""
    clears: tuple[str, ...] = ()
    in_spite_of: tuple[str, ...] = ()
    minutes: float = 0.0
    wait_min: float = 0.0
    risk_pct: float = 0.0
    tool: str = ""
    detail: str = ""
    cautions: tuple[str, ...] = ()
    hardware: tuple[tuple[str, int], ...] = ()
    leaves: str = ""
    left_out: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """A part that was changed, to be tried with its neighbours before it is fixed again.

    Attributes:
        part: its sided id.
        before: the steps, permanent, that wait for that trial.
    """

    part: str
    before: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """A relation that the way back does not heed, by its rule and what it says of which steps."""

    rule: str
    first: str
    of: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A way back that was chosen.

    Attributes:
        why: why this one, as a sentence.
        settles: the mistakes it answers, by what names them in the ledger (``Told.id``).
        about: parts it is about, for moves that touch no step of the build.
        before: steps that usually wait for such moves: what goes through a mended hole.
    """

    title: str
    why: str
    moves: tuple[MendMove, ...] = ()
    settles: tuple[str, ...] = ()
    set_aside: tuple[SetAside, ...] = ()
    refits: tuple[Refit, ...] = ()
    about: tuple[str, ...] = ()
    before: tuple[str, ...] = ()


def mend_text(mend: Mend) -> str:
    """Return a way back as the text of its entry; what says nothing is left out."""
    return json.dumps(_lean(asdict(mend)), ensure_ascii=False, sort_keys=True)


def _lean(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _lean(one) for key, one in value.items() if one not in ("", (), 0.0, False)}
    return [_lean(one) for one in value] if isinstance(value, list | tuple) else value


@lru_cache(maxsize=256)
def mend_from(text: str) -> Mend | None:
    """Return the way back of an entry; ``None`` where it is none that can be followed.

    Keys of a later version are passed over.
    """
    try:
        told = json.loads(text)
        return Mend(
            title=str(told["title"]),
            why=str(told.get("why", "")),
            moves=tuple(_move(one) for one in told.get("moves", ())),
            settles=_texts(told.get("settles", ())),
            set_aside=tuple(
                SetAside(rule=str(one["rule"]), first=str(one["first"]), of=_texts(one["of"]))
                for one in told.get("set_aside", ())
            ),
            refits=tuple(
                Refit(part=str(one["part"]), before=_texts(one.get("before", ())))
                for one in told.get("refits", ())
            ),
            about=_texts(told.get("about", ())),
            before=_texts(told.get("before", ())),
        )
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def _move(told: dict[str, Any]) -> MendMove:
    return MendMove(
        title=str(told["title"]),
        opens=bool(told.get("opens", False)),
        means=str(told.get("means", "")),
        step=str(told.get("step", "")),
        clears=_texts(told.get("clears", ())),
        in_spite_of=_texts(told.get("in_spite_of", ())),
        minutes=float(told.get("minutes", 0.0)),
        wait_min=float(told.get("wait_min", 0.0)),
        risk_pct=float(told.get("risk_pct", 0.0)),
        tool=str(told.get("tool", "")),
        detail=str(told.get("detail", "")),
        cautions=_texts(told.get("cautions", ())),
        hardware=tuple((str(what), int(many)) for what, many in told.get("hardware", ())),
        leaves=str(told.get("leaves", "")),
        left_out=bool(told.get("left_out", False)),
    )


def _texts(found: Any) -> tuple[str, ...]:
    if isinstance(found, str):
        raise TypeError(found)
    return tuple(str(one) for one in found)
