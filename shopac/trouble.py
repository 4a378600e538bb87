"""The one exception for what keeps the program from starting."""


class CannotStart(Exception):
    """What is wrong and what to do about it, as one sentence for the person who started it."""
