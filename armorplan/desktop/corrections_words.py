"""Words of the corrections page: what was found and what it becomes, what each version brought."""

from collections.abc import Collection, Iterator

from PySide6.QtCore import QCoreApplication

from armorplan.app.corrections_model import (
    CorrectionRow,
    CutAdvice,
    Remedy,
    Standing,
    VersionRow,
)

ACCEPTED, OPEN, KEPT = "\N{BALLOT BOX WITH CHECK}", "\N{BALLOT BOX}", "\N{CHECK MARK}"


def _tr(text: str) -> str:
    return QCoreApplication.translate("corrections", text)


def row_words(row: CorrectionRow, *, accepted: bool) -> str:
    """Return a correction as a line of the list: its standing as a sign and a word, and its title."""
    if row.standing is Standing.KEPT:
        sign, word = KEPT, _tr("in the pattern")
    else:
        sign, word = (ACCEPTED, _tr("accepted")) if accepted else (OPEN, _tr("not accepted"))
    far = _tr("; moves {0:.1f} mm").format(row.most_mm) if row.moves else _tr("; a check")
    return f"{sign} {row.title}{far}\n    {word}"


def detail_words(row: CorrectionRow) -> str:
    """Return all that is told of a correction, in paragraphs."""
    told = [row.text]
    if not row.moves:
        told.append(_tr("No hole moves: the next build is asked to look there."))
    if row.causes:
        told += ["", _tr("Look at this first: the check says of the same holes")]
        told += [f"• {one}" for one in row.causes]
    told += ["", _tr("Found in")]
    told += [
        _tr("• {0} (version {1}): {2}").format(one.name, one.version, one.words)
        for one in row.found
    ]
    if row.advice:
        told += ["", _tr("For leather of builds that were begun")]
        told += [f"• {line}" for line in _advised(row.advice)]
    return "\n".join(told)


def _advised(advice: Collection[CutAdvice]) -> Iterator[str]:
    for one in advice:
        words = remedy_words(one.remedy)
        yield f"{one.build_name}, {one.part_name}: {words}. {one.text}".strip()
        yield from (_tr("Caution: {0}").format(caution) for caution in one.cautions)


def remedy_words(remedy: Remedy) -> str:
    """Return what to do with leather, in a few words."""
    return {
        Remedy.NOT_YET: _tr("punch it by the new version"),
        Remedy.LEAVE: _tr("leave it as it is"),
        Remedy.OVAL: _tr("make the hole oval"),
        Remedy.PLUG: _tr("plug it and punch anew"),
        Remedy.OTHER: _tr("look for another way"),
        Remedy.ANEW: _tr("cut the part anew"),
    }[remedy]


def head_words(rows: Collection[CorrectionRow], accepted: Collection[str]) -> str:
    """Say how many corrections there are, and how many of them are accepted."""
    offered = sum(1 for row in rows if row.standing is Standing.OFFERED)
    if not rows:
        return _tr("The dry fits of this pattern's builds ask for nothing.")
    if not offered:
        return _tr("All that the dry fits asked for is in the pattern.")
    return _tr("{0} offered, {1} accepted. Space accepts or rejects what is chosen.").format(
        offered, len(accepted)
    )


def nothing_words() -> str:
    """Say where corrections come from, where there are none."""
    return _tr(
        "Tell at a dry fit what you find, with the mm (Bench, Dry fit). Once it is told, this page "
        "shows what it asks of the drawing, for all builds of the pattern, and what it means for "
        "leather that is cut."
    )


def version_words(row: VersionRow) -> str:
    """Return a version as a line of the list."""
    now = _tr(" – as the folder holds it") if row.is_now else ""
    cut = sum(build.is_cut for build in row.builds)
    builds = _tr("{0} cut from it").format(cut) if cut else _tr("none cut from it")
    if begun := len(row.builds) - cut:
        builds += _tr(", {0} only begun").format(begun)
    note = f"\n    {row.note}" if row.note else ""
    return _tr("Version {0}{1} · {2}").format(row.version, now, builds) + note


def version_detail(row: VersionRow) -> str:
    """Return all that is told of a version, in paragraphs."""
    told = [row.note] if row.note else []
    if row.on:
        told.append(_tr("Kept on {0}.").format(row.on))
    if row.from_builds:
        told.append(_tr("Learned from {0}.").format(", ".join(row.from_builds)))
    told += [f"• {one}" for one in row.changed]
    if not row.changed and not row.note:
        told.append(_tr("Nothing is noted of it."))
    for build in row.builds:
        here = _tr(" (at the bench)") if build.is_open else ""
        told += ["", f"{build.name}{here}", build.text]
    return "\n".join(told)
