"""General libraries to be measured against. They come with the packages for tests; one that is not there is named."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType
from typing import Any

Untyped = Any
"""What a library without types hands out."""


@dataclass(frozen=True, slots=True)
class Missing:
    """A library that cannot be asked, and why."""

    name: str
    why: str

    def __str__(self) -> str:
        return f"{self.name} cannot be measured against: {self.why}. It comes with the packages for tests."


def peer(name: str, *modules: str) -> ModuleType | Missing:
    """The library's module (the last one named, where it has several), ready to be used."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # their own imports warn of what is to come in their dependencies
        try:
            found = import_module(name)
            for module in modules:
                import_module(module)
        except ImportError as error:
            return Missing(name, str(error))
    return found
