import pytest
from files.small_cuff import OPEN_SVG

from armorplan.files import budget
from armorplan.files.drawing import read_drawing
from armorplan.kernel.findings import Severity


def _read(body, head=OPEN_SVG):
    return read_drawing("x.svg", f"{head}{body}</svg>")


def _whole(text):
    """Return the one finding of a drawing that cannot be read at all."""
    found = read_drawing("x.svg", text)
    assert not found.readable
    assert (found.circles, found.outlines) == ((), ())
    assert len(found.findings) == 1
    assert found.findings[0].severity is Severity.ERROR
    assert found.findings[0].place.file == "x.svg"
    return found.findings[0]


def _flaw(element):
    found = _read(f"\n{element}")
    assert list(found.flawed) == ["p"], found
    assert (found.circles, found.outlines, found.findings) == ((), (), ())
    fault = found.flawed["p"]
    assert (fault.place.line, fault.place.key, fault.about) == (2, "p", ("p",))
    assert fault.remedy
    return fault


class TestXml:
    def test_cut_off_tells_what_is_still_open(self):
        fault = _whole(f'{OPEN_SVG}\n<g>\n<circle id="c" r="2"/>\n')
        assert fault.code == "cut-off"
        assert "<g> of line 2 is not closed" in fault.text

    def test_cut_off_inside_a_tag(self):
        assert _whole(f'{OPEN_SVG}\n<path id="p" d="M 0').code == "cut-off"

    def test_broken_tells_the_line(self):
        fault = _whole(f"{OPEN_SVG}\n<g>\n</svg>")
        assert (fault.code, fault.place.line) == ("broken-xml", 3)

    def test_an_undeclared_prefix(self):
        assert _whole(f'{OPEN_SVG}\n<g draw:note="x"/></svg>').code == "broken-xml"

    @pytest.mark.parametrize(
        "head",
        [
            '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]>',
            '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>',
            '<!DOCTYPE svg [<!ENTITY % x SYSTEM "http://localhost/x.dtd">%x;]>',
            '<!DOCTYPE svg [<!ATTLIST circle r CDATA "5">]>',
        ],
    )
    def test_entities_and_rules_of_its_own(self, head):
        fault = _whole(f"<?xml version='1.0'?>\n{head}\n{OPEN_SVG}<text>&x;</text></svg>")
        assert (fault.code, fault.place.line) == ("unsafe-xml", 2)

    def test_a_billion_laughs(self):
        bomb = '<!ENTITY l0 "lol">' + "".join(
            f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10)
        )
        fault = _whole(f"<!DOCTYPE svg [{bomb}]>{OPEN_SVG}<text>&l9;</text></svg>")
        assert fault.code == "unsafe-xml"

    def test_an_entity_nobody_declared(self):
        assert _whole(f"{OPEN_SVG}<text>&bull;</text></svg>").code == "broken-xml"

    @pytest.mark.parametrize(
        "text", ["<html/>", '<svg xmlns="urn:other"/>', '<g xmlns="http://www.w3.org/2000/svg"/>']
    )
    def test_xml_that_is_no_svg(self, text):
        assert _whole(text).code == "not-an-svg"

    def test_text_that_is_no_xml(self):
        assert _whole("format = 1").code == "broken-xml"


class TestLimits:
    def test_groups_nested_too_deep(self):
        fault = _whole(OPEN_SVG + "<g>" * 5000 + "</g>" * 5000 + "</svg>")
        assert fault.code == "drawing-limit"
        assert "more than 100 deep" in fault.text

    def test_groups_nested_as_deep_as_is_read(self):
        found = _read("<g>" * 98 + '<circle id="c" r="1"/>' + "</g>" * 98)
        assert len(found.circles) == 1

    def test_uses_that_multiply(self):
        uses = "".join(
            f'<g id="g{n}">{f"""<use href="#g{n - 1}"/>""" * 10}</g>' for n in range(1, 12)
        )
        fault = _whole(f'{OPEN_SVG}<g id="g0"><circle r="1"/></g>{uses}</svg>')
        assert f"{budget.MAX_ELEMENTS:,} elements, uses multiplied out" in fault.text

    def test_uses_nested_too_deep(self):
        uses = "".join(f'<use id="u{n}" href="#u{n - 1}"/>' for n in range(1, 200))
        fault = _whole(f'{OPEN_SVG}<circle id="u0" r="1"/>{uses}</svg>')
        assert "uses nested more than 100 deep" in fault.text

    def test_too_many_elements(self):
        fault = _whole(OPEN_SVG + "<g/>" * budget.MAX_ELEMENTS + "</svg>")
        assert f"{budget.MAX_ELEMENTS:,} elements" in fault.text

    def test_too_many_corners(self):
        curve = "C9e3 0 0 9e3 0 0" * 3000
        fault = _whole(f'{OPEN_SVG}<path id="p" d="M0 0{curve}z"/></svg>')
        assert f"{budget.MAX_CORNERS:,} corners" in fault.text

    def test_too_long_paths(self):
        data = "M0 0" + " 1 1" * 1_000_001
        fault = _whole(f'{OPEN_SVG}<path id="p" d="{data}"/></svg>')
        assert f"{budget.MAX_PATH_CHARS:,} characters" in fault.text

    def test_limits_count_over_all_drawings(self):
        shared = budget.Budget(elements=50)
        rects = "".join(f'<rect id="r{n}" width="2" height="2"/>' for n in range(20))
        first = read_drawing("a.svg", f"{OPEN_SVG}{rects}</svg>", shared)
        assert len(first.outlines) == 20
        second = read_drawing("b.svg", f"{OPEN_SVG}{'<g/>' * 30}</svg>", shared)
        assert [f.code for f in second.findings] == ["drawing-limit"]


class TestPage:
    def _page(self, attrs):
        head = f'<svg xmlns="http://www.w3.org/2000/svg" {attrs}>'
        found = _read('<circle id="c" r="2"/>', head)
        assert len(found.circles) == 1
        return found.findings

    @pytest.mark.parametrize(
        "attrs",
        [
            'viewBox="0 0 210 297"',
            'width="210" height="297" viewBox="0 0 210 297"',
            'width="210px" height="297px" viewBox="0 0 210 297"',
            'width="100%" viewBox="0 0 210 297"',
            'width="0mm" viewBox="0 0 210 297"',
            'width="-2mm" viewBox="0 0 210 297"',
            'width="1e999mm" viewBox="0 0 210 297"',
            'width="two mm" viewBox="0 0 210 297"',
        ],
    )
    def test_no_physical_unit_says_what_to_write(self, attrs):
        (fault,) = self._page(attrs)
        assert (fault.code, fault.severity) == ("no-unit", Severity.ERROR)
        assert 'width="210mm" height="297mm" viewBox="0 0 210 297"' in fault.remedy

    def test_no_view_box_says_both_readings(self):
        (fault,) = self._page('width="200mm" height="100mm"')
        assert fault.code == "no-viewbox"
        assert 'viewBox="0 0 200 100"' in fault.remedy
        # 200 mm are 200 / 25.4 · 96 = 755.91 CSS pixels.
        assert 'viewBox="0 0 755.91 377.95"' in fault.remedy

    @pytest.mark.parametrize(
        "box", ["0 0 200", "0 0 0 100", "0 0 -1 5", "a b c d", "0 0 inf 1", ""]
    )
    def test_bad_view_box(self, box):
        (fault,) = self._page(f'width="200mm" height="100mm" viewBox="{box}"')
        assert fault.severity is Severity.ERROR

    def test_stretched_page_is_an_error(self):
        (fault,) = self._page(
            'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"'
        )
        assert (fault.code, fault.severity) == ("uneven-scale", Severity.ERROR)
        assert "2.0000 mm across, but 1.0000 mm down" in fault.text

    def test_page_of_other_proportions_is_a_warning(self):
        (fault,) = self._page('width="200mm" height="100mm" viewBox="0 0 100 100"')
        assert (fault.code, fault.severity) == ("uneven-scale", Severity.WARNING)

    def test_rounded_page_sizes_are_fine(self):
        assert self._page('width="210mm" height="297mm" viewBox="0 0 209.98 297.01"') == ()

    def test_a_transform_on_the_page(self):
        (fault,) = self._page('width="9mm" viewBox="0 0 9 9" transform="scale(2)"')
        assert fault.code == "page-moved"

    @pytest.mark.parametrize("rule", [".a{display:none}", "g { transform : scale(2) }"])
    def test_a_style_sheet_that_hides_or_moves(self, rule):
        (fault,) = _read(f"<style>.b{{fill:red}}\n{rule}</style>").findings
        assert (fault.code, fault.severity) == ("style-sheet", Severity.WARNING)

    def test_a_style_sheet_that_paints_only(self):
        assert _read("<style>.b{fill:red;stroke:none}</style>").findings == ()


class TestGroups:
    @pytest.mark.parametrize(
        "transform",
        ["scale(2", "turn(3)", "rotate(1 2)", "matrix(1 2 3)", "translate(10mm)", "scale(2) x"],
    )
    def test_bad_transform(self, transform):
        found = _read(f'\n<g transform="{transform}"><circle id="c" r="1"/></g>')
        assert [f.severity for f in found.findings] == [Severity.ERROR]
        assert found.findings[0].place.line == 2

    def test_uses_in_a_circle(self):
        found = _read(
            '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g><circle id="c" r="3"/>'
        )
        assert {f.code for f in found.findings} == {"use-of-itself"}
        assert len(found.circles) == 1

    @pytest.mark.parametrize("href", ["#gone", "other.svg#c", "", "http://localhost/x.svg#c"])
    def test_use_of_what_is_not_there(self, href):
        found = _read(f'<use id="u" href="{href}"/>')
        assert [f.code for f in found.findings] == ["use-of-nothing"]

    def test_inner_page_with_a_box_and_no_size(self):
        found = _read('<svg viewBox="0 0 5 5"><circle id="c" r="1"/></svg>')
        assert [f.code for f in found.findings] == ["page-without-size"]


class TestShapes:
    def test_open_path_tells_gap_and_ends(self):
        fault = _flaw('<path id="p" d="M0 0 10 0 10 10 1.3 0"/>')
        assert fault.code == "open-path"
        assert "open by 1.3 mm between (0.0, 0.0) and (1.3, 0.0)" in fault.text

    def test_crossing_outline_tells_where(self):
        fault = _flaw('<path id="p" d="M0 0 10 10 10 0 0 10z"/>')
        assert fault.code == "crosses-itself"
        assert "at (5.0, 5.0)" in fault.text

    @pytest.mark.parametrize(
        ("element", "code"),
        [
            ('<path id="p" d="M0 0 9 0 9 9z M2 2h1v1z"/>', "several-lines"),
            ('<path id="p" d="M0 0 9 0z"/>', "no-area"),
            ('<path id="p" d="M0 0 9 0 9 1e-9z"/>', "no-area"),
            ('<path id="p" d="M0 0 9 0 NaN 9z"/>', "bad-path"),
            ('<path id="p" d="M0 0 9 0 9 foo z"/>', "bad-path"),
            ('<path id="p" d="M0 0 9 0 9 z"/>', "bad-path"),
            ('<path id="p" d="0 0 9 0 9 9z"/>', "bad-path"),
            ('<path id="p" d="M0 0A1 1 0 3 0 5 5z"/>', "bad-path"),
            ('<path id="p" d="M0 0A1 1 0 ; 0 0 5 5z"/>', "bad-path"),
            ('<path id="p" d="M0 0A z"/>', "bad-path"),
            ('<path id="p" d="M0 0L1e999 9 9 9z"/>', "not-a-number"),
            ('<path id="p" d="M0 0A1e999 1 0 0 0 9 9L0 9z"/>', "not-a-number"),
            ('<path id="p" d="M0 0h99999v9z"/>', "far-out"),
            ('<rect id="p" width="9" height="9" transform="scale(1e9)"/>', "far-out"),
            ('<rect id="p" width="-9" height="9"/>', "negative-size"),
            ('<rect id="p" width="nine" height="9"/>', "not-a-number"),
            ('<rect id="p" x="10mm" width="9" height="9"/>', "unit-inside"),
            ('<rect id="p" width="50%" height="9"/>', "unit-inside"),
            ('<circle id="p" r="-2"/>', "negative-size"),
            ('<circle id="p" r="inf"/>', "not-a-number"),
            ('<circle id="p" cx="1e999" r="2"/>', "not-a-number"),
            ('<circle id="p" cx="99999" r="2"/>', "far-out"),
            ('<polygon id="p" points="0 0 9"/>', "odd-points"),
            ('<polygon id="p" points="0 0 9 x"/>', "not-a-number"),
        ],
    )
    def test_flaws(self, element, code):
        assert _flaw(element).code == code

    def test_flaws_without_an_id_do_not_matter(self):
        found = _read('<path d="M0 0 foo"/><circle r="x"/><path d="M0 0 9 9"/>')
        assert (found.flawed, found.findings) == ({}, ())

    def test_a_long_attribute_is_not_shown_whole(self):
        assert len(_flaw(f'<path id="p" d="{"foo" * 10_000}"/>').text) < 200

    def test_what_else_has_an_id_is_described(self):
        found = _read(
            '<text id="t">a</text>\n<g id="g" display="none"><circle id="c" r="1"/></g>'
            '<defs><rect id="r" width="1" height="1"/></defs>'
        )
        assert {o.id: o.what for o in found.others} == {
            "t": "<text>",
            "g": "<g>, hidden",
            "c": "<circle>, hidden",
            "r": "<rect>, inside <defs>",
        }
        assert found.others[1].place.line == 2
