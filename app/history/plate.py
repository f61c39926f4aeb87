"""A plate, VIN or order number as it is looked up: people write the same one with and without blanks and hyphens."""

from __future__ import annotations


def plate_key(text: str) -> str:
    """Letters and digits only, in capitals."""
    return "".join(letter for letter in text.upper() if letter.isalnum())
