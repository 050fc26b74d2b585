"""Settings: declared with type, default and meaning, and kept as JSON in the config folder."""

import json
import logging
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from platformdirs import user_config_path

T = TypeVar("T", str, int, bool)
_LOG = logging.getLogger(__name__)


def _anything(_value: object) -> bool:
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting(Generic[T]):
    """One declared setting.

    Attributes:
        key: its name in the file.
        default: what holds where the file says nothing; its type is the setting's type.
        doc: what it does.
        allows: whether a value of the right type can be used.
    """

    key: str
    default: T
    doc: str
    allows: Callable[[T], bool] = _anything


THEME = Setting(
    key="theme",
    default="system",
    doc="Colours: system, light or dark.",
    allows=lambda value: value in ("system", "light", "dark"),
)
TEXT_PCT = Setting(
    key="text_pct",
    default=100,
    doc="Size of all text in per cent, 70 to 300.",
    allows=lambda value: 70 <= value <= 300,  # noqa: PLR2004 - the bounds stand in doc
)
GROUPING = Setting(
    key="grouping",
    default="by piece",
    doc="Grouping of the checklist: by piece or by day.",
    allows=lambda value: value in ("by piece", "by day"),
)
READY_ONLY = Setting(
    key="ready_only", default=False, doc="Show only the steps that can be worked on now."
)
ALL_MARKS = Setting(
    key="all_marks", default=False, doc="Draw on the parts what all shapes tell, sound or not."
)
SOUND = Setting(key="sound", default=True, doc="Sound when a timer has something to tell.")
LOUDNESS_PCT = Setting(
    key="loudness_pct",
    default=80,
    doc="How loud timers sound, in per cent, 20 to 100.",
    allows=lambda value: 20 <= value <= 100,  # noqa: PLR2004 - the bounds stand in doc
)
CALM = Setting(
    key="calm",
    default=False,
    doc="Less motion: what would change its look each second stands still instead.",
)
WINDOW_PLACE = Setting(
    key="window_place", default="", doc="Size and place of the window, as Qt writes it in hex."
)
ACROSS = Setting(
    key="split_across", default="", doc="Share of checklist and pictures, as Qt writes it in hex."
)
DOWN = Setting(
    key="split_down", default="", doc="Share of pictures and reasons, as Qt writes it in hex."
)
BENCH_DISTANCE_CM = Setting(
    key="bench_distance_cm",
    default=150,
    doc="How far from the screen the maker stands in the bench view, in cm, 30 to 500.",
    allows=lambda value: 30 <= value <= 500,  # noqa: PLR2004 - the bounds stand in doc
)
BENCH_DIAGONAL_MM = Setting(
    key="bench_diagonal_mm",
    default=0,
    doc="Diagonal of the screen in mm, 100 to 3000; 0: as the screen says.",
    allows=lambda value: value == 0 or 100 <= value <= 3000,  # noqa: PLR2004 - the bounds stand in doc
)
BENCH_TEXT_PCT = Setting(
    key="bench_text_pct",
    default=100,
    doc="Size of text in the bench view in per cent of what the distance asks for, 30 to 300.",
    allows=lambda value: 30 <= value <= 300,  # noqa: PLR2004 - the bounds stand in doc
)
BENCH_WHOLE_SCREEN = Setting(
    key="bench_whole_screen", default=True, doc="The bench view takes the whole screen."
)
BENCH_PEDALS = Setting(
    key="bench_pedals",
    default="",
    doc="Keys that pedals send in the bench view, such as done=PgDown; take back=PgUp.",
)
CUTTING = Setting(
    key="cutting",
    default="hand; 600 x 400; 5; 0",
    doc="What cuts, the bed, what is free between blanks and the kerf in mm, as typed last.",
    allows=lambda value: value.count(";") == 3,  # noqa: PLR2004 - four values
)
ALL: tuple[Setting[str] | Setting[int] | Setting[bool], ...] = (
    THEME,
    TEXT_PCT,
    GROUPING,
    READY_ONLY,
    ALL_MARKS,
    SOUND,
    LOUDNESS_PCT,
    CALM,
    WINDOW_PLACE,
    ACROSS,
    DOWN,
    BENCH_DISTANCE_CM,
    BENCH_DIAGONAL_MM,
    BENCH_TEXT_PCT,
    BENCH_WHOLE_SCREEN,
    BENCH_PEDALS,
    CUTTING,
)


def settings_file() -> Path:
    """Return where the settings are kept."""
    return user_config_path("armorplan", appauthor=False, roaming=True) / "settings.json"


class Settings:
    """The person's settings, read once and written at every change.

    ``notice`` is a sentence for the person where the file could not be read; it is then kept
    beside the new one.
    """

    def __init__(self, path: Path) -> None:
        self.notice = ""
        self._path = path
        self._values = self._read()

    def value(self, setting: Setting[T]) -> T:
        """Return a setting's value, or its default where the file's cannot be used."""
        found = self._values.get(setting.key)
        if type(found) is type(setting.default) and setting.allows(found):
            return found
        return setting.default

    def put(self, setting: Setting[T], value: T) -> None:
        """Set a value and write the file; ValueError for a value the setting does not allow."""
        if not setting.allows(value):
            message = f"{value!r} does not fit {setting.key}: {setting.doc}"
            raise ValueError(message)
        if self._values.get(setting.key) != value:
            self._values[setting.key] = value
            self._write()

    def _read(self) -> dict[str, object]:
        try:
            found = json.loads(self._path.read_text(encoding="utf-8"))
        except FileNotFoundError:
            return {}
        except (OSError, ValueError):
            found = None
        if isinstance(found, dict):
            return found
        kept = self._path.with_suffix(".unreadable.json")
        self.notice = f"The settings could not be read, so the usual ones hold. Kept as {kept}."
        try:
            self._path.replace(kept)
        except OSError as error:
            _LOG.warning("Cannot keep %s: %s", self._path, error)
        return {}

    def _write(self) -> None:
        """Write beside and swap, so that a crash leaves the old file or the new one."""
        half = self._path.with_suffix(".part")
        text = json.dumps(self._values, indent=2, sort_keys=True, ensure_ascii=False)
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            half.write_text(text + "\n", encoding="utf-8")
            half.replace(self._path)
        except OSError as error:
            _LOG.warning("Cannot write the settings to %s: %s", self._path, error)
