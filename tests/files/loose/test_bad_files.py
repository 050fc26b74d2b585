"""Whatever is brought in, there is one clear message, or a drawing; never a traceback or a hang."""

import gzip
import io
from random import Random
from time import process_time

import ezdxf
import pytest
from files.loose.messy import as_dxf, as_svg, in_segments, lantern_plates, plain, seeded
from files.loose.reading_kit import fault, loose

from armorplan.files.loose import reading, stoppable
from armorplan.kernel.errors import StoppedError, UnreadableError

MESS = plain(lantern_plates(seeded(2), 2))
DXF = as_dxf(MESS)


def refused(folder, body, **more):
    with pytest.raises(UnreadableError) as error:
        loose(folder, body, **more)
    return fault(error)


@pytest.mark.parametrize(
    ("data", "code", "words"),
    [
        (b"", "empty-file", "is empty"),
        (b" \r\n\x00", "empty-file", "is empty"),
        (b"\xef\xbb\xbf", "empty-file", "is empty"),
        (b"%PDF-1.7\n", "not-a-drawing", "PDF"),
        (b"%!PS-Adobe-3.0 EPSF-3.0", "not-a-drawing", "PostScript"),
        (b"\xc5\xd0\xd3\xc6\x20", "not-a-drawing", "PostScript"),
        (b"AC1027\x00\x00", "not-a-drawing", "DWG"),
        (b"\x89PNG\r\n\x1a\n", "not-a-drawing", "dots"),
        (b"\xff\xd8\xff\xe0", "not-a-drawing", "dots"),
        (b"GIF89a", "not-a-drawing", "dots"),
        (b"BM\x36\x00", "not-a-drawing", "dots"),
        (b"RIFF\x00\x00\x00\x00WEBP", "not-a-drawing", "dots"),
        (b"PK\x03\x04", "not-a-drawing", "archive"),
        (b"hello, this is a letter", "not-a-drawing", "neither SVG nor DXF"),
        (b"\x00\x01\x02\x03" * 50, "not-a-drawing", "neither SVG nor DXF"),
        (b"<html><body/></html>", "not-an-svg", "not <svg>"),
        (b"<svg><rect", "cut-off", "ends too early"),
        (b"<svg></g></svg>", "broken-xml", "not sound XML"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "nothing-drawn", "no line"),
        (gzip.compress(bytes(range(256)), mtime=0)[:40], "cut-off", "cut off"),
        (b"\x1f\x8b\x00", "cut-off", "cut off"),
        (b"0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n", "nothing-drawn", "no line"),
        (b"0\nSECTION\n2\nENT", "broken-dxf", "no sound DXF"),
        (b"AutoCAD Binary DXF\r\n\x1a\x00\x00", "broken-dxf", "no sound DXF"),
    ],
)
def test_what_is_no_drawing(tmp_path, data, code, words):
    found = refused(tmp_path, data)
    assert found.code == code
    assert words in found.text


def test_a_name_says_nothing_and_the_content_all(tmp_path):
    assert loose(tmp_path, as_svg(MESS).encode(), name="watch.dxf").strokes
    assert loose(tmp_path, DXF, name="watch.svg").strokes


def test_entities_and_own_rules_are_refused(tmp_path):
    bomb = b'<!DOCTYPE svg [<!ENTITY a "b"><!ENTITY c "&a;&a;">]><svg>&c;</svg>'
    assert refused(tmp_path, bomb).code == "unsafe-xml"
    plain_type = (
        b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/'
        b'svg11.dtd"><svg xmlns="http://www.w3.org/2000/svg"><rect width="99" height="90"/></svg>'
    )
    assert len(loose(tmp_path, plain_type).strokes) == 1


def test_a_picture_wrapped_in_a_drawing(tmp_path):
    found = refused(tmp_path, '<image width="200" height="100" href="data:image/png;base64,AA"/>')
    assert found.code == "only-a-picture"
    assert "Draw the outlines over the picture" in found.remedy


def test_no_such_file_and_a_folder(tmp_path):
    with pytest.raises(UnreadableError) as error:
        reading.read_loose(tmp_path / "lantern.svg")
    assert fault(error).code == "no-such-file"
    with pytest.raises(UnreadableError) as error:
        reading.read_loose(tmp_path)
    assert fault(error).code == "is-a-folder"
    with pytest.raises(UnreadableError):
        reading.read_loose(tmp_path / ("x" * 5000))


def test_a_large_file_is_told_by_its_size(tmp_path):
    path = tmp_path / "large.svg"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    began = process_time()
    with pytest.raises(UnreadableError) as error:
        reading.read_loose(path)
    assert process_time() - began < 0.2
    found = fault(error)
    assert found.code == "too-large"
    assert "more than 50 MB" in found.text


def test_a_small_file_that_unpacks_to_a_large_one(tmp_path, monkeypatch):
    monkeypatch.setattr(reading, "MOST_BYTES", 100_000)
    packed = gzip.compress(b"<svg>" + b" " * 200_000, mtime=0)
    assert refused(tmp_path, packed, name="watch.svgz").code == "too-large"


def test_uses_and_blocks_that_multiply(tmp_path, monkeypatch):
    uses = "".join(f'<g id="g{n}">{f"""<use href="#g{n - 1}"/>""" * 10}</g>' for n in range(1, 9))
    monkeypatch.setattr(stoppable, "MAX_ELEMENTS", 3_000)
    found = refused(tmp_path, f'<g id="g0"><circle r="1"/></g>{uses}')
    assert found.code == "drawing-limit"
    document = ezdxf.new("R2000")
    block = document.blocks.new("b0")
    block.add_circle((0, 0), 1)
    for n in range(1, 9):
        block = document.blocks.new(f"b{n}")
        for x in range(10):
            block.add_blockref(f"b{n - 1}", (x, 0))
    document.modelspace().add_blockref("b8", (0, 0))
    assert refused(tmp_path, _written(document), name="watch.dxf").code == "drawing-limit"


def _written(document):
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


@pytest.mark.parametrize("name", ["watch.svg", "watch.dxf"])
def test_reading_can_be_stopped(tmp_path, name):
    segments = in_segments(MESS)
    segments.lines = segments.lines[:300]
    data = as_dxf(segments) if name.endswith("dxf") else as_svg(segments).encode()
    asked = []

    def at_last():
        asked.append(None)
        return False

    loose(tmp_path, data, name=name, should_stop=at_last)
    assert len(asked) > 3

    for count in (1, len(asked) // 2, len(asked)):
        left = [None] * count

        def then(left=left):
            left.pop()
            return not left

        with pytest.raises(StoppedError):
            loose(tmp_path, data, name=name, should_stop=then)


@pytest.mark.parametrize("seed", range(6))
def test_spoilt_files(tmp_path, seed):
    random = Random(seed)  # noqa: S311 - not a secret
    for data, name in ((DXF, "a.dxf"), (as_svg(MESS).encode(), "a.svg")):
        for _ in range(4):
            spoilt = bytearray(data)
            for _ in range(random.randint(1, 30)):
                spoilt[random.randrange(len(spoilt))] = random.randrange(256)
            cut = spoilt[: random.randrange(1, len(spoilt))] if random.random() < 0.5 else spoilt
            try:
                assert loose(tmp_path, bytes(cut), name=name).strokes
            except UnreadableError as error:
                assert len(error.findings) == 1  # noqa: PT017 - either is right
