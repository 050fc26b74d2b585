"""Reads SVG text into a plain tree with the line of every element, safely.

No entity is expanded, no document type with rules of its own is accepted, and nothing outside the
file is fetched. A bare DOCTYPE line, as older drawing programs write it, is harmless and let be.
"""

from dataclasses import dataclass, field
from functools import lru_cache
from xml.sax import SAXParseException
from xml.sax.handler import ContentHandler, feature_namespaces
from xml.sax.xmlreader import AttributesNSImpl, Locator

from defusedxml.common import DefusedXmlException, DTDForbidden
from defusedxml.expatreader import DefusedExpatParser

from armorplan.files.budget import Budget, OverBudgetError
from armorplan.files.faults import brief
from armorplan.files.file_bytes import unreadable
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place

MAX_DEPTH = 100
_KEPT_CHARS = 150_000
"""Texts up to this length are kept, which hold fewer elements than any limit."""
SVG_NAMESPACE = "http://www.w3.org/2000/svg"
_XLINK_NAMESPACE = "http://www.w3.org/1999/xlink"
_WORDED = frozenset({"style", "title", "text", "tspan", "textPath"})
_ENDS_EARLY = ("no element found", "unclosed token", "unclosed CDATA section")


@dataclass(slots=True, eq=False)
class Element:
    """One element of the drawing; read only once the tree is built.

    ``tag`` is the plain SVG name, or empty for an element of another language; ``label`` is what a
    drawing program shows as its name, ``is_layer`` whether it is a layer there; ``words`` are those of a text, title or style sheet, and
    ``after`` what follows it within its text.
    """

    tag: str
    attrs: dict[str, str]
    line: int
    children: "list[Element]" = field(default_factory=list)
    words: str = ""
    after: str = ""
    label: str = ""
    is_layer: bool = False

    @property
    def id(self) -> str | None:
        """Its id, or ``None``."""
        return self.attrs.get("id") or None

    @property
    def is_hidden(self) -> bool:
        """Tell whether the element itself is not displayed (``display: none``)."""
        style = self.attrs.get("style", "").replace(" ", "").lower()
        return self.attrs.get("display") == "none" or "display:none" in style


class _Parser(DefusedExpatParser):
    def defused_start_doctype_decl(
        self,
        name: str,
        sysid: str | None,
        pubid: str | None,
        has_internal_subset: bool,  # noqa: FBT001 - the library's signature
    ) -> None:
        if has_internal_subset:
            raise DTDForbidden(name, sysid, pubid)

    def defused_external_entity_ref_handler(  # type: ignore[override]  # expat wants an int
        self, context: str | None, base: str | None, sysid: str | None, pubid: str | None
    ) -> int:
        """Say 'done' for the document type's own file, which is not fetched."""
        if context is not None:
            super().defused_external_entity_ref_handler(context, base, sysid, pubid)
        return 1


class _Builder(ContentHandler):
    def __init__(self, budget: Budget, locator: Locator) -> None:
        super().__init__()
        self._budget = budget
        self._locator = locator
        self.open: list[Element] = []
        self.root: Element | None = None

    @property
    def line(self) -> int:
        return self._locator.getLineNumber() or 1

    def startElementNS(  # noqa: N802 - SAX's name
        self,
        name: tuple[str | None, str],
        qname: str | None,  # noqa: ARG002
        attrs: AttributesNSImpl,
    ) -> None:
        space, tag = name
        plain = {key: value for (where, key), value in attrs.items() if where is None}
        href = attrs.get((_XLINK_NAMESPACE, "href"))
        if href is not None:
            plain.setdefault("href", href)
        known = tag if space in {None, SVG_NAMESPACE} else ""
        other = {key: value for (where, key), value in attrs.items() if where is not None}
        label = other.get("label", plain.get("aria-label", "")).strip()
        is_layer = other.get("groupmode") == "layer"
        element = Element(tag=known, attrs=plain, line=self.line, label=label, is_layer=is_layer)
        self._budget.element()
        if len(self.open) >= MAX_DEPTH:
            raise OverBudgetError(f"groups nested more than {MAX_DEPTH} deep")
        if self.open:
            self.open[-1].children.append(element)
        else:
            self.root = element
        self.open.append(element)

    def endElementNS(  # noqa: N802 - SAX's name
        self,
        name: tuple[str | None, str],  # noqa: ARG002
        qname: str | None,  # noqa: ARG002
    ) -> None:
        self.open.pop()

    def characters(self, content: str) -> None:
        if not self.open or self.open[-1].tag not in _WORDED:
            return
        element = self.open[-1]
        if element.children:
            element.children[-1].after += content
        else:
            element.words += content


def read_tree(name: str, text: str, budget: Budget) -> Element:
    """Return the drawing's root element; that of a text that was read just now is not read again.

    Raises:
        UnreadableError: with one finding: broken or cut off XML, entities, or a root that is
            no SVG.
        OverBudgetError: too many or too deeply nested elements.
    """
    if len(text) > _KEPT_CHARS:
        return _read(name, text, budget)
    try:
        root, count = _kept(text)
    except (UnreadableError, OverBudgetError):
        return _read(name, text, budget)  # which tells it with the drawing's name
    for _ in range(count):
        budget.element()
    return root


@lru_cache(maxsize=4)
def _kept(text: str) -> tuple[Element, int]:
    """Return a text's root element, and how many elements there are."""
    root = _read("", text, Budget())
    waiting, count = [root], 0
    while waiting:
        element = waiting.pop()
        count += 1
        waiting += element.children
    return root, count


def _read(name: str, text: str, budget: Budget) -> Element:
    parser = _Parser(namespaceHandling=True, forbid_dtd=True)
    builder = _Builder(budget, parser)
    parser.setFeature(feature_namespaces, True)  # noqa: FBT003 - SAX's signature
    parser.setContentHandler(builder)
    try:
        parser.feed(text.removeprefix("\ufeff"))
        parser.close()
    except SAXParseException as error:
        raise _broken(name, error, builder.open) from error
    except DefusedXmlException as error:
        raise unreadable(
            "unsafe-xml",
            f"{name} declares entities or document rules of its own; these are not read.",
            mend="Save it as plain SVG, without a [ ] part in its DOCTYPE line.",
            place=Place(file=name, line=builder.line),
        ) from error
    if builder.root is None or builder.root.tag != "svg":
        raise unreadable(
            "not-an-svg",
            f"{name} is XML, but its outermost element is not <svg>.",
            mend='Save it as plain SVG, with xmlns="http://www.w3.org/2000/svg".',
            place=Place(file=name, line=1),
        )
    return builder.root


def _broken(name: str, error: SAXParseException, still_open: list[Element]) -> UnreadableError:
    line = error.getLineNumber() or 1
    words = error.getMessage()
    if words.startswith(_ENDS_EARLY):
        inner = still_open[-1] if still_open else None
        unclosed = f": <{inner.tag}> of line {inner.line} is not closed" if inner else ""
        return unreadable(
            "cut-off",
            f"{name} ends too early, in line {line}{unclosed}.",
            mend="Save the drawing again, or bring back a copy; the file was cut off.",
            place=Place(file=name, line=line),
        )
    return unreadable(
        "broken-xml",
        f"{name} is not sound XML: {brief(words)} in line {line}.",
        mend="Mend this line, or save the drawing again as plain SVG.",
        place=Place(file=name, line=line),
    )
