"""A look at a drying, or a weighing, as the text of an entry: all that is needed to learn from it.

What was reckoned then is kept with what was seen, so that an entry can be read without its build,
its pattern and the air of those days.
"""

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from functools import lru_cache
from math import isfinite
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class LookTaken:
    """What was seen of a drying, and what was reckoned then.

    Attributes:
        treatment: the catalogue's id.
        stage: how far it was to dry, as ``drying.spans.Stage`` has it.
        dry: what was found; of a weighing, what it says by the share that counted then; ``None``
            where that says nothing of the stage: what is only to be dry to the touch, or to cure.
        begun_at: when it began to dry, in ISO 8601, UTC, by the wall clock at the look.
        run: the moment that began it, by a name that holds whatever the clock says (``Moment.run``);
            empty in entries of older programs.
        dose_min: minutes at the reference that had passed in the air as it was.
        reference_min: minutes at the reference that the stage takes by the catalogue, of this body.
        thickness_mm, faces, dipped: the body; ``None``: as the catalogue has it.
        before_g, wet_g, now_g: weights before the bath, out of it and now; ``None``: not weighed.
        foretold_min, foretold_spread: minutes at the reference by which it will be dry by weight,
            and the spread of their logarithm; ``None`` where no weighing tells.
        expected_factor, expected_spread: what a drying of this shop was expected to take without
            what this one told, as a multiple of the reference, and the spread of its logarithm;
            ``None`` in entries of older programs.
    """

    treatment: str
    stage: str
    dry: bool | None
    begun_at: str
    dose_min: float
    reference_min: float
    thickness_mm: float | None = None
    faces: int | None = None
    dipped: bool = False
    before_g: float | None = None
    wet_g: float | None = None
    now_g: float | None = None
    foretold_min: float | None = None
    foretold_spread: float = 0.0
    run: str = ""
    expected_factor: float | None = None
    expected_spread: float = 0.0

    @property
    def begun(self) -> str:
        """What names the drying: its run, or where that was not kept, when it began."""
        return self.run or self.begun_at

    @property
    def factor(self) -> float:
        """The dose as a share of the reference."""
        return self.dose_min / self.reference_min

    @property
    def foretold(self) -> tuple[float, float] | None:
        """By which multiple of the reference it will be dry by weight, and that one's spread."""
        if self.foretold_min is None:
            return None
        return self.foretold_min / self.reference_min, self.foretold_spread

    @property
    def expected(self) -> tuple[float, float] | None:
        """Which multiple of the reference was expected without this drying, and its spread."""
        if self.expected_factor is None:
            return None
        return self.expected_factor, self.expected_spread

    @property
    def weights_g(self) -> tuple[float, float, float] | None:
        """Weights before the bath, out of it and now, where it was weighed."""
        if self.before_g is None or self.wet_g is None or self.now_g is None:
            return None
        return self.before_g, self.wet_g, self.now_g


def look_text(look: LookTaken) -> str:
    """Return a look as the text of its entry."""
    told = {key: value for key, value in asdict(look).items() if value is not None or key == "dry"}
    return json.dumps(told, ensure_ascii=False, sort_keys=True)


@lru_cache(maxsize=4096)
def look_from(text: str) -> LookTaken | None:
    """Return a look from the text of an entry; ``None`` where it is no look that can be used."""
    try:
        found = LookTaken(**json.loads(text))
        return found if _is_sound(found) else None
    except (TypeError, ValueError):
        return None


def _is_sound(look: LookTaken) -> bool:
    # What a text holds may be of any kind, whatever the fields say.
    told: tuple[Any, ...] = (
        look.dose_min,
        look.reference_min,
        *(look.weights_g or ()),
        *(look.foretold or ()),
        *(look.expected or ()),
    )
    texts: tuple[Any, ...] = (look.treatment, look.stage, look.begun_at, look.run)
    dry: Any = look.dry
    return (
        all(isinstance(number, int | float) and isfinite(number) for number in told)
        and all(isinstance(text, str) for text in texts)
        and (dry is None or isinstance(dry, bool))
        and datetime.fromisoformat(look.begun_at).tzinfo is not None
        and look.dose_min >= 0
        and look.reference_min > 0
        and (look.expected_factor is None or look.expected_factor > 0)
    )
