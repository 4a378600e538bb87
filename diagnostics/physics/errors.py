"""What can be wrong with a number, told as a sentence that names the physical fault."""


class PhysicsError(ValueError):
    """Base of all; `sentence` is fit to be shown to the person who typed the number."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class Malformed(PhysicsError):
    """It is no number, or it can be read in two ways."""


class OutOfRange(PhysicsError):
    """A number that can be, but outside the range for which the computation holds."""


class Impossible(PhysicsError):
    """A number that no thing in this world has, such as a temperature below absolute zero."""
