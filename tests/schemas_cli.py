"""The shipped JSON Schemas of the command line's answers."""

import json

from jsonschema import Draft202012Validator

from armorplan.kernel.shipped import resources_folder


def schema(name: str) -> Draft202012Validator:
    """Return the validator of one command's answer."""
    file = resources_folder() / "schemas" / f"{name}.schema.json"
    return Draft202012Validator(json.loads(file.read_text(encoding="utf-8")))
