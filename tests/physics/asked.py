"""A computation run by its name for a test: its sentence, or the sentence of its error."""

from typing import Any

from diagnostics.physics.computations.answer import answer


def meaning(name: str, **told: Any) -> str:
    """What the answer means; an error fails the test."""
    found = answer(name, told)
    assert "error" not in found, found
    return str(found["meaning"])


def fault(name: str, code: str, **told: Any) -> str:
    """The sentence of an error, whose code is the one expected."""
    found = answer(name, told)
    assert found.get("error") == code, found
    return str(found["sentence"])
