"""What ``armorplan drill`` says, in tests."""

import json

from schemas_cli import schema

from armorplan.cli.program import run


def said(capsys, *words, code=0):
    assert run(["drill", *words]) == code, capsys.readouterr().err
    return capsys.readouterr().out


def answered(capsys, *words, code=0):
    found = json.loads(said(capsys, *words, "--json", code=code))
    schema("drill").validate(found)
    return found


def right_letters(capsys, *words):
    return answered(capsys, *words, "--solution")["solved"]["letters"].split()
