"""Short ways to write a file and read it as loose lines."""

from armorplan.files.loose.reading import read_loose

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    'xmlns:ink="http://lantern.example/ink" width="200mm" height="100mm" viewBox="0 0 200 100">'
)


def loose(folder, body, *, name="watch.svg", head=HEAD, **more):
    """Read an SVG of this body, or a file of these bytes."""
    path = folder / name
    if isinstance(body, bytes):
        path.write_bytes(body)
    else:
        path.write_text(f"{head}{body}</svg>", encoding="utf-8")
    return read_loose(path, **more)


def fault(error):
    """Return the one finding of an error."""
    (finding,) = error.value.findings
    assert finding.text.endswith(".")
    assert finding.remedy.endswith(".")
    assert finding.place is not None
    return finding
