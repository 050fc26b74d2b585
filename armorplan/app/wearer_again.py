"""Fitting anew: what the fitted folder learned at its dry fits goes on in the new version."""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from armorplan.app.wearer_model import Fitted
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts
from armorplan.files.toml_patch import Change, all_patched
from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity, gravest_first
from armorplan.workshop.shelf import Shelf

LEARNED = ("corrections-kept", "correction-lost")
"""Codes of what is told here."""
Tables = Mapping[str, Mapping[str, Any]]


def with_learned(found: Fitted, former: Mapping[str, str], shelf: Shelf) -> Fitted:
    """Return a fitted pattern with the corrections and versions of the one it replaces.

    Args:
        found: fitted anew.
        former: the files it replaces, by name; none where it is the first.
        shelf: the catalogues.
    """
    if PATTERN_FILE not in former:
        return found
    values = tomllib.loads(former[PATTERN_FILE].removeprefix("\ufeff"))
    corrections, versions = _tables(values, "corrections"), _tables(values, "versions")
    if not corrections and not versions:
        return found
    holes = _holes(found, shelf)
    kept = {key: one for key, one in corrections.items() if holes.issuperset(one["holes"])}
    lost = {key: one for key, one in corrections.items() if key not in kept}
    texts = dict(found.texts)
    texts[PATTERN_FILE] = all_patched(
        texts[PATTERN_FILE], (*_new("corrections", kept), *_new("versions", versions))
    )
    told = gravest_first((*found.findings, *_kept(kept), *_lost(lost, holes)))
    return replace(found, texts=tuple(sorted(texts.items())), findings=told)


def _tables(values: Mapping[str, Any], name: str) -> Tables:
    found: Tables = values.get(name, {})
    return found


def _holes(found: Fitted, shelf: Shelf) -> frozenset[str]:
    pattern = read_pattern(from_texts(found.slug, dict(found.texts)), shelf).pattern
    parts = pattern.parts if pattern else ()
    return frozenset(hole.id for part in parts for hole in part.holes)


def _new(table: str, entries: Tables) -> Iterator[Change]:
    for key, values in entries.items():
        yield Change(path=(table, key), value=dict(values), is_new=True)


def _kept(corrections: Tables) -> Iterator[Finding]:
    if corrections:
        names = listed([str(one["name"]) for one in corrections.values()])
        yield Finding(
            code="corrections-kept",
            severity=Severity.NOTE,
            text=f"What was found at the dry fits of the former version is kept: {names}.",
            remedy="Look at the next dry fit whether it still holds; take a correction out that the "
            "pattern itself has learned meanwhile.",
            about=tuple(sorted(corrections)),
        )


def _lost(corrections: Tables, holes: frozenset[str]) -> Iterator[Finding]:
    for key, one in corrections.items():
        gone = listed([hole for hole in one["holes"] if hole not in holes])
        yield Finding(
            code="correction-lost",
            severity=Severity.WARNING,
            text=f"The correction '{one['name']}' of the former version was not kept: there is no {gone} any more.",
            remedy="Look at the next dry fit whether it is still needed.",
            about=(key,),
        )
