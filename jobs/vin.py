"""Vehicle identification numbers: what is odd about one as it was read.

49 CFR 565.13 and 565.15 (ISO 3779 has the same alphabet and length): 17 characters without I, O
and Q; in North America the ninth is a check digit (565.15(c), tables III to V). Elsewhere a maker
may use the ninth as it likes, so there a digit that does not fit proves nothing.
"""

LENGTH = 17
# Table III: the value of each letter; digits have their own.
VALUES = {
    **{str(digit): digit for digit in range(10)},
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    "P": 7,
    "R": 9,
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
# Table IV: the weight of each position; the ninth is the check digit itself.
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
CHECK_DIGITS = "0123456789X"
# First character of makers in the USA, Canada and Mexico (SAE J1044; from memory).
NORTH_AMERICA = "12345"

VALID, LENGTH_ODD, LETTER_ODD, DIGIT_ODD = "valid", "length", "letter", "check digit"


def folded(vin: str) -> str:
    """As it is checked: upper case, without blanks and dashes. What was read is kept as read."""
    return "".join(vin.split()).replace("-", "").upper()


def verdict(vin: str) -> str:
    """VALID, LENGTH_ODD, LETTER_ODD or DIGIT_ODD."""
    read = folded(vin)
    if len(read) != LENGTH:
        return LENGTH_ODD
    if any(letter not in VALUES for letter in read):
        return LETTER_ODD
    return VALID if read[8] == check_digit(read) else DIGIT_ODD


def check_digit(read: str) -> str:
    """The ninth character that belongs to the other sixteen (remainder by 11, ten is X)."""
    total = sum(VALUES[letter] * weight for letter, weight in zip(read, WEIGHTS, strict=True))
    return CHECK_DIGITS[total % 11]


def mark(vin: str) -> str:
    """The sentence beside a VIN as read; empty when nothing is odd, or nothing was read."""
    read = folded(vin)
    if not read:
        return ""
    found = verdict(vin)
    if found == LENGTH_ODD:
        return f"{len(read)} character{'s' * (len(read) != 1)}; a VIN has {LENGTH}. Read it again."
    if found == LETTER_ODD:
        odd = next(letter for letter in read if letter not in VALUES)
        return f"“{odd}” is in no VIN (no I, O or Q). Read it again."
    if found == DIGIT_ODD and read[0] in NORTH_AMERICA:
        return "Its check digit does not fit: one character may be misread. Read it again."
    if found == DIGIT_ODD:
        return "Its ninth character is no check digit; outside North America it need not be one."
    return ""


def calls_for_another_look(vin: str) -> bool:
    """Whether what is odd is a misreading, not merely a remark."""
    odd = bool(folded(vin)) and verdict(vin) != VALID
    return odd and not (verdict(vin) == DIGIT_ODD and folded(vin)[0] not in NORTH_AMERICA)
