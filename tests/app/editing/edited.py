"""Samples as drafts in haste: read, and not reckoned through."""

from functools import cache

from armorplan.app.draft import Bench, Draft, Refused, drafted
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker


@cache
def bench() -> Bench:
    return Bench(shelf=read_shelf(), shop=one_maker("UTC"))


@cache
def sample(name: str) -> Draft:
    return drafted(read_folder(samples_folder() / name), bench(), is_hasty=True)


def taken(result: Draft | Refused) -> Draft:
    assert isinstance(result, Draft), result.words
    return result


def why(result: Draft | Refused) -> str:
    assert isinstance(result, Refused)
    return result.words
