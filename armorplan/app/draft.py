"""A pattern under edit: immutable texts, each edit a new draft, refused where it makes errors."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from armorplan.app.derived import Derived, derive_build
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, PatternFiles, from_texts
from armorplan.files.tables import loaded
from armorplan.files.toml_lines import KeyPath
from armorplan.files.toml_patch import Change, UnpatchableError, all_patched
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

_KEPT = 4
"""Of so many drafts the derived is kept: some megabytes each in a large pattern."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """An edit that was not taken, and what it would have made wrong."""

    findings: tuple[Finding, ...]

    @property
    def words(self) -> str:
        """Why, in the words of the first finding."""
        first = self.findings[0]
        return f"{first.text} {first.remedy}".strip()


def refused(text: str, remedy: str = "", *, code: str = "not-taken") -> Refused:
    """Return a refusal in these words."""
    finding = Finding(code=code, severity=Severity.ERROR, text=text, remedy=remedy)
    return Refused(findings=(finding,))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bench:
    """What a pattern is read and derived with; one is not another, even if it holds the same."""

    shelf: Shelf
    shop: Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """One state of a pattern under edit.

    Attributes:
        slug: the folder's name.
        texts: name and text of each file, byte order marks and all.
        values: the tables of the pattern file.
        findings: everything found in it.
        is_sound: whether it can be read; where not, errors among the findings say why.
        is_hasty: it was read only: what follows from it is not among the findings yet.
        told: what else the edit that made it changed, in sentences.
    """

    slug: str
    texts: tuple[tuple[str, str], ...]
    bench: Bench
    values: Mapping[str, Any]
    findings: tuple[Finding, ...]
    is_sound: bool
    is_hasty: bool = False
    told: tuple[str, ...] = field(default=(), compare=False)

    @property
    def derived(self) -> Derived | None:
        """What follows from it; ``None`` where it is not sound.

        Only that of the last few drafts is kept, since an undo stack may hold hundreds of them.
        """
        return _derived(self.slug, self.texts, self.bench) if self.is_sound else None

    @property
    def pattern(self) -> Pattern | None:
        """The pattern as it was read, options not settled; ``None`` where it is not sound."""
        return _read(self.slug, self.texts, self.bench)[1]

    @property
    def read_findings(self) -> tuple[Finding, ...]:
        """What was found in it as it was read, before anything followed from it."""
        return _read(self.slug, self.texts, self.bench)[0]

    @property
    def text(self) -> str:
        """The text of the pattern file."""
        return dict(self.texts)[PATTERN_FILE]

    @property
    def name(self) -> str:
        """The pattern's name; the folder's where it has none."""
        told = self.entry("pattern", "").get("name")
        return told if isinstance(told, str) and told else self.slug

    def entry(self, table: str, entry: str) -> Mapping[str, Any]:
        """Return what an entry holds; nothing where it is not written. '' is the table itself."""
        inner = self.values.get(table)
        inner = inner.get(entry) if entry and isinstance(inner, dict) else inner
        return inner if isinstance(inner, dict) else {}

    def put(self, *changes: tuple[KeyPath, Any]) -> "Draft | Refused":
        """Return the draft with keys set, all or none; ``None`` takes a key out."""
        made = [Change(path=path, value=value) for path, value in changes]
        return self._patched(made, "Change it in the file itself.")

    def raised_above(self, version: int) -> "Draft | Refused":
        """Return the draft as a version after this one; where it is one already, as it is."""
        now = self.entry("pattern", "").get("version")
        if isinstance(now, int) and now > version:
            return self
        return self.put((("pattern", "version"), version + 1))

    def add_entry(self, table: str, entry: str, values: Mapping[str, Any]) -> "Draft | Refused":
        """Return the draft with a new entry at the end of its table."""
        made = Change(path=(table, entry), value=dict(values), is_new=True)
        return self._patched([made], "Give it another id.")

    def drop_entry(self, table: str, entry: str) -> "Draft | Refused":
        """Return the draft without an entry."""
        return self.put(((table, entry), None))

    def _patched(self, changes: Iterable[Change], remedy: str) -> "Draft | Refused":
        try:
            return self.with_text(all_patched(self.text, changes))
        except UnpatchableError as error:
            return refused(str(error), remedy, code="cannot-patch")

    def with_text(self, text: str) -> "Draft | Refused":
        """Return the draft of another pattern file, or the errors it has and this one has not."""
        if text == self.text:
            return self
        made = self._with({PATTERN_FILE: text})
        new = _new_errors(self, made)
        return Refused(findings=new) if new else made

    def with_files(
        self, changes: Mapping[str, str | None], *, told: Iterable[str] = ()
    ) -> "Draft | Refused":
        """Return the draft with other texts of some files, drawings among them, in one edit.

        It is refused where it could not be read any more. What its shapes then tell against it is
        not: a hole on its way to its place passes many a wrong one.

        Args:
            changes: text by name of the file; a name that is new becomes a file of the pattern, a
                file with ``None`` is one no more.
            told: what else the edit does, in sentences.
        """
        if all(dict(self.texts).get(name) == text for name, text in changes.items()):
            return self
        made = replace(self._with(changes), told=tuple(told))
        if made.is_sound:
            return made
        new = _new_errors(self, made)
        return Refused(findings=new) if new else made

    def _with(self, changes: Mapping[str, str | None]) -> "Draft":
        texts = {
            name: text
            for name, text in (dict(self.texts) | dict(changes)).items()
            if text is not None
        }
        files = from_texts(self.slug, texts)
        return drafted(files, self.bench, is_hasty=self.is_hasty)

    def in_haste(self) -> "Draft":
        """Return the draft so that its edits are read only, which is quick; see ``checked``."""
        return replace(self, is_hasty=True)

    def checked(self) -> "Draft":
        """Return the draft with everything found in it, reckoned now where that was left."""
        if not self.is_hasty:
            return self
        made = drafted(from_texts(self.slug, dict(self.texts)), self.bench)
        return replace(made, told=self.told)


def drafted(files: PatternFiles, bench: Bench, *, is_hasty: bool = False) -> Draft:
    """Return a pattern's files as a draft, with everything found in them.

    Args:
        files: the pattern's files.
        bench: what they are read and derived with.
        is_hasty: leave what follows from them for later.

    Raises:
        UnreadableError: a file is not text.
    """
    texts = files.as_texts()
    held = tuple(texts.items())
    findings, pattern = _read(files.slug, held, bench)
    derived = None if is_hasty or pattern is None else _derived(files.slug, held, bench)
    return Draft(
        slug=files.slug,
        texts=held,
        bench=bench,
        values=_values(texts.get(PATTERN_FILE, "")),
        findings=(*files.findings, *findings, *(derived.findings if derived else ())),
        is_sound=pattern is not None,
        is_hasty=is_hasty,
    )


@lru_cache(maxsize=4 * _KEPT)
def _read(
    slug: str, texts: tuple[tuple[str, str], ...], bench: Bench
) -> tuple[tuple[Finding, ...], Pattern | None]:
    """Return what is found in a pattern's files, and the pattern where they are sound."""
    found = read_pattern(from_texts(slug, dict(texts)), bench.shelf)
    return found.findings, found.pattern


@lru_cache(maxsize=_KEPT)
def _derived(slug: str, texts: tuple[tuple[str, str], ...], bench: Bench) -> Derived | None:
    """Return what follows from a pattern's files where they are sound."""
    _, pattern = _read(slug, texts, bench)
    if pattern is None:
        return None
    return derive_build(pattern, bench.shelf, bench.shop, build=pattern.slug)


def _values(text: str) -> Mapping[str, Any]:
    try:
        return loaded(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError):
        return {}


def _new_errors(before: Draft, after: Draft) -> tuple[Finding, ...]:
    """Return the errors an edit made: those of a code that there were fewer of before.

    Counted by code, since a changed name changes the words of an old error too. What could not be
    derived before is not held against the edit that made it readable.
    """
    errors = [f for f in after.findings if f.severity is Severity.ERROR]
    if after.is_sound and not before.is_sound:
        return ()
    former = [f for f in before.findings if f.severity is Severity.ERROR]
    counts = Counter(f.code for f in former)
    more = {
        code for code, count in Counter(f.code for f in errors).items() if count > counts[code]
    }
    known = {(f.code, f.text) for f in former}
    new = [f for f in errors if f.code in more]
    return tuple(f for f in new if (f.code, f.text) not in known) or tuple(new)


def new_warnings(before: Draft, after: Draft) -> tuple[Finding, ...]:
    """Return what an edit made worth a look: warnings in words that were not there before."""
    known = {(f.code, f.text) for f in before.findings}
    return tuple(
        finding
        for finding in after.findings
        if finding.severity is Severity.WARNING and (finding.code, finding.text) not in known
    )
