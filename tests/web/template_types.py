"""Walks a template's syntax tree with the types of its view: what it asks for, and what nobody gives it."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Iterator

from jinja2 import Environment, nodes

Types = tuple[type, ...]


def members(kind: object) -> Types:
    """The types a hint can stand for, None left out."""
    if typing.get_origin(kind) in (typing.Union, types.UnionType):
        return tuple(t for part in typing.get_args(kind) for t in members(part))
    return () if kind is type(None) else (kind,)


def reachable(kind: object, found: set[type] | None = None) -> set[type]:
    """Every dataclass that can be reached from this one by its fields."""
    found = set() if found is None else found
    for one in members(kind):
        if typing.get_origin(one) is tuple:
            for part in typing.get_args(one):
                reachable(part, found)
        elif dataclasses.is_dataclass(one) and one not in found:
            found.add(one)
            for hint in typing.get_type_hints(one).values():
                reachable(hint, found)
    return found


class Walker:
    """`asked`: (class, field) pairs that templates ask for; `wrong`: what they ask for in vain."""

    def __init__(self, environment: Environment) -> None:
        self.environment = environment
        self.asked: set[tuple[type, str]] = set()
        self.wrong: list[str] = []
        self._done: set[tuple[object, ...]] = set()

    def page(self, name: str, view: type) -> None:
        self._template(name, {"view": (view,), "asset": (), "_": ()})

    def _template(self, name: str, scope: dict[str, object]) -> None:
        tree = self._parse(name)
        self._body(tree.body, dict(scope), name)

    def _parse(self, name: str) -> nodes.Template:
        source, _, _ = self.environment.loader.get_source(self.environment, name)
        return self.environment.parse(source)

    def _macros(self, name: str) -> dict[str, tuple[nodes.Macro, str]]:
        tree = self._parse(name)
        found = {node.name: (node, name) for node in tree.find_all(nodes.Macro)}
        for imported in tree.find_all(nodes.FromImport):
            others = self._macros(imported.template.value)
            found |= {one: others[one] for one in imported.names}
        return found

    def _body(self, body: list[nodes.Node], scope: dict[str, object], at: str) -> None:
        for node in body:
            self._statement(node, scope, at)

    def _statement(self, node: nodes.Node, scope: dict[str, object], at: str) -> None:
        match node:
            case nodes.Extends():
                self._template(node.template.value, {k: v for k, v in scope.items() if k in ("view", "asset", "_")})
            case nodes.Include():
                self._template(node.template.value, scope)
            case nodes.FromImport():
                scope |= {name: self._macros(node.template.value)[name] for name in node.names}
            case nodes.Macro():
                scope[node.name] = (node, at)
            case nodes.Assign():
                scope[node.target.name] = self._types(node.node, scope, at)
            case nodes.For():
                inner = {**scope, node.target.name: self._elements(self._types(node.iter, scope, at))}
                self._body([*node.body, *node.else_], inner, at)
            case nodes.If():
                self._types(node.test, scope, at)
                self._body([*node.body, *node.elif_, *node.else_], dict(scope), at)
            case nodes.Block():
                self._body(node.body, dict(scope), at)
            case nodes.Output():
                for one in node.nodes:
                    self._types(one, scope, at)
            case nodes.TemplateData():
                pass
            case _:
                raise AssertionError(f"{at}: a template should not need {type(node).__name__}")

    def _elements(self, kinds: Types) -> Types:
        return tuple(t for kind in kinds if typing.get_origin(kind) is tuple for t in members(typing.get_args(kind)[0]))

    def _types(self, node: nodes.Node, scope: dict[str, object], at: str) -> Types:
        match node:
            case nodes.Name():
                assert node.name in scope, f"{at}: {node.name} is not known"
                found = scope[node.name]
                return found if isinstance(found, tuple) and not (found and isinstance(found[0], nodes.Macro)) else ()
            case nodes.Getattr():
                return tuple(t for kind in self._types(node.node, scope, at) for t in self._field(kind, node.attr, at))
            case nodes.Call():
                return self._call(node, scope, at)
            case nodes.Const() | nodes.TemplateData():
                return ()
            case nodes.Filter() | nodes.Not():
                return self._types(node.node, scope, at)
            case nodes.And() | nodes.Or():
                return (*self._types(node.left, scope, at), *self._types(node.right, scope, at))
            case nodes.Concat():
                for one in node.nodes:
                    self._types(one, scope, at)
                return ()
            case _:
                raise AssertionError(f"{at}: a template should not need {type(node).__name__}")

    def _field(self, kind: type, name: str, at: str) -> Iterator[type]:
        hints = typing.get_type_hints(kind) if dataclasses.is_dataclass(kind) else {}
        if name in hints:
            self.asked.add((kind, name))
            yield from members(hints[name])
        elif isinstance(getattr(kind, name, None), property):
            yield str
        else:
            self.wrong.append(f"{at}: {getattr(kind, '__name__', kind)} has no {name}")

    def _call(self, node: nodes.Call, scope: dict[str, object], at: str) -> Types:
        given = [self._types(one, scope, at) for one in node.args]
        target = scope.get(node.node.name) if isinstance(node.node, nodes.Name) else None
        if not (isinstance(target, tuple) and target and isinstance(target[0], nodes.Macro)):
            return ()
        macro, home = target
        key = (home, macro.name, *given)
        if key not in self._done:
            self._done.add(key)
            names = [argument.name for argument in macro.args]
            bound = dict.fromkeys(names, ()) | dict(zip(names, given, strict=False))
            self._body(macro.body, {**self._macros(home), "asset": (), **bound}, home)
        return ()
