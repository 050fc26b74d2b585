from dataclasses import replace

from armorplan.kernel.findings import Finding, Place, Severity, gravest_first, has_errors


def finding(severity: Severity) -> Finding:
    return Finding(
        code="hole-outside-part",
        severity=severity,
        text="Hole 'h' lies outside.",
        remedy="Move it.",
        place=Place(file="pattern.toml", line=3, key="joints.a.stack"),
    )


def test_a_finding_reads_as_one_line():
    line = str(finding(Severity.ERROR))
    assert line == (
        "pattern.toml:3 (joints.a.stack): error: Hole 'h' lies outside. Move it. "
        "[hole-outside-part]"
    )


def test_what_stands_in_no_file_begins_with_how_grave_it_is():
    nowhere = replace(finding(Severity.ERROR), place=Place(file=""))
    assert str(nowhere).startswith("error: Hole")


def test_the_gravest_come_first_and_others_keep_their_order():
    order = (Severity.NOTE, Severity.WARNING, Severity.ERROR, Severity.NOTE)
    found = [replace(finding(each), text=f"{at}.") for at, each in enumerate(order)]
    assert [one.text for one in gravest_first(found)] == ["2.", "1.", "0.", "3."]


def test_only_errors_count_as_errors():
    assert has_errors([finding(Severity.NOTE), finding(Severity.ERROR)])
    assert not has_errors([finding(Severity.WARNING), finding(Severity.NOTE)])
