"""Reads an answer as a person does: headings, links, fields by their label, sentences beside them. Standard library."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

import httpx

VOID = {"meta", "link", "input", "br", "img", "hr", "use", "rect", "path", "circle"}


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    parent: Element | None
    children: list[Element | str] = field(default_factory=list)

    @property
    def text(self) -> str:
        parts = [child if isinstance(child, str) else child.text for child in self.children]
        return " ".join(" ".join(parts).split())

    def all(self, tag: str = "", **attributes: str) -> list[Element]:
        """Every element below with this tag and these attributes (`class_` for class, contained)."""
        found = []
        for child in self.children:
            if isinstance(child, Element):
                if child._is(tag, attributes):
                    found.append(child)
                found += child.all(tag, **attributes)
        return found

    def one(self, tag: str = "", **attributes: str) -> Element:
        found = self.all(tag, **attributes)
        assert len(found) == 1, f"{len(found)} of <{tag} {attributes}>"
        return found[0]

    def _is(self, tag: str, attributes: dict[str, str]) -> bool:
        if tag and self.tag != tag:
            return False
        return all(
            self.attributes.get(name.rstrip("_").replace("_", "-")) == value for name, value in attributes.items()
        )


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("", {}, None)
        self._at = self.root

    def handle_starttag(self, tag, attrs):
        element = Element(tag, {name: value or "" for name, value in attrs}, self._at)
        self._at.children.append(element)
        if tag not in VOID:
            self._at = element

    def handle_startendtag(self, tag, attrs):
        self._at.children.append(Element(tag, {name: value or "" for name, value in attrs}, self._at))

    def handle_endtag(self, tag):
        at = self._at
        while at.parent is not None and at.tag != tag:
            at = at.parent
        if at.parent is not None:
            self._at = at.parent

    def handle_data(self, data):
        self._at.children.append(data)


class Page:
    """An answer, parsed."""

    def __init__(self, response: httpx.Response) -> None:
        self.response = response
        self.status = response.status_code
        self.headers = response.headers
        builder = _Builder()
        builder.feed(response.text)
        self.root = builder.root

    @property
    def text(self) -> str:
        return self.root.text

    @property
    def heading(self) -> str:
        return self.root.one("h1").text

    def headings(self) -> list[str]:
        return [e.text for tag in ("h1", "h2", "h3") for e in self.root.all(tag)]

    def links(self) -> dict[str, str]:
        return {link.text: link.attributes.get("href", "") for link in self.root.all("a")}

    def id(self, id: str) -> Element:
        return self.root.one(id=id)

    def field(self, label: str) -> Element:
        """The input, list or text with this label; for a group of choices, the group."""
        for one in self.root.all("label"):
            if one.text == label and "for" in one.attributes:
                return self.id(one.attributes["for"])
        return next(one for one in self.root.all("fieldset") if one.one("legend").text == label)

    def problem_at(self, label: str) -> str:
        """The sentence that a screen reader reads with this field when something is wrong."""
        field = self.field(label)
        ids = field.attributes.get("aria-describedby", "").split()
        return " ".join(self.id(id).text for id in ids if id.endswith("-problem"))

    def buttons(self) -> list[str]:
        return [b.text for b in self.root.all("button") if b.attributes.get("aria-hidden") != "true"]

    def hidden(self, name: str) -> str:
        return self.root.one("input", type="hidden", name=name).attributes["value"]

    def form_values(self) -> dict[str, str]:
        """What the page's forms would send if nothing were touched."""
        values: dict[str, str] = {}
        for one in self.root.all("input"):
            kind, name = one.attributes.get("type", "text"), one.attributes.get("name", "")
            if name and (kind not in ("radio", "checkbox") or "checked" in one.attributes):
                values[name] = one.attributes.get("value", "")
        for area in self.root.all("textarea"):
            values[area.attributes["name"]] = "".join(c for c in area.children if isinstance(c, str))
        for pick in self.root.all("select"):
            options = pick.all("option")
            chosen = [o for o in options if "selected" in o.attributes] or options[:1]
            values[pick.attributes["name"]] = chosen[0].attributes["value"] if chosen else ""
        return values
