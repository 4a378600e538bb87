"""One line of an estimate or an invoice: what was typed of it, as a row keeps it, and back."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import UNITS, unit_named
from jobs.estimating import priced, whole
from jobs.forms.prices import hours_words, minutes
from jobs.models.line_words import MEASURES
from jobs.models.priced import Line
from jobs.money import MINOR_MAX, NotAnAmount, millionths, minor, plain

MASSES, VOLUMES = ("g", "kg", "oz", "lb"), ("mL", "L", "fl oz")
LENGTHS = ("m", "ft")
PERS = {"h": "an hour", "time": "once, all of it", "piece": "a piece", **MEASURES}
# What a price is for where nothing else is tapped, and as what a line is taxed.
PER = {"labor": "h", "part": "piece", "sundry": "time", "other": "time", "discount": "time"}
TAXED = {
    "labor": "labor",
    "part": "parts",
    "fluid": "refrigerant",
    "sundry": "parts",
    "other": "parts",
}
NO_TAX = "none"
SHARES = ("sundry", "discount")  # may be told in percent
COUNT_MOST = 100_000
OF_WHAT = "How much of it, and of what? Type g, kg, oz, lb, mL, L or fl oz behind it."
NO_COUNT = "Type a number above zero, with three decimals at most."
TOO_MANY = "That is more of it than one car takes. Type it again."
OTHER_UNIT = "This amount and its price are not in the same sort of unit."
TOO_MUCH = "That is more money than a shop can mean. Look at amount and price."
SHARE_PRICE = "A share has no price of its own. Leave one of the two empty."
PIECES = ("", "piece", "pieces", "pc", "pcs", "x", "time", "times")


class Odd(NotAnAmount):
    """What stands in one field of a line cannot be read; `field` names it."""

    def __init__(self, field: str, sentence: str) -> None:
        super().__init__(sentence)
        self.field = field


def line_of(told: Mapping[str, str], currency: str) -> Line:
    """A line as a row keeps it; a share has no amount before the others have theirs.

    `told` has the fields of one line by their names without its number.

    Raises:
        Odd: something in it is no number, or cannot be.

    """
    sort, typed = told["sort"], told["quantity"]
    line: Line = {
        "code": told["code"],
        "sort": sort,
        "words": told["words"],
        "quantity": "",
        "unit": "",
        "minutes": None,
        "much": None,
        "price": price_of(told, currency),
        "per": told["per"] or PER.get(sort, ""),
        "amount": None,
        "source": told["source"] if sort == "part" else "",
        "taxed": "" if told["taxed"] == NO_TAX else told["taxed"] or TAXED.get(sort, ""),
    }
    if sort in SHARES and typed.rstrip().endswith("%"):
        return line | share(typed, line["price"])
    line |= amount_told(line, typed)
    count = count_of(line)
    if line["price"] is not None and count is not None:
        line["amount"] = (-1 if sort == "discount" else 1) * priced(line["price"], count)
        if abs(line["amount"]) > MINOR_MAX:
            raise Odd("price", TOO_MUCH)
    return line


def price_of(told: Mapping[str, str], currency: str) -> int | None:
    """Smallest units; None: not told. A part that the customer brings costs nothing here.

    Raises:
        Odd: no price can be read.

    """
    if not told["price"]:
        return 0 if told["sort"] == "part" and told["source"] == "customer" else None
    try:
        return minor(told["price"], currency)
    except NotAnAmount as wrong:
        raise Odd("price", str(wrong)) from None


def share(typed: str, price: int | None) -> Line:
    """What a share tells: its percent, and that it is no price for one of anything.

    Raises:
        Odd: it has a price, too, or is no share.

    """
    if price is not None:
        raise Odd("price", SHARE_PRICE)
    try:
        found = millionths(typed)
    except NotAnAmount as wrong:
        raise Odd("quantity", str(wrong)) from None
    return {"quantity": decimal_text(Decimal(found).scaleb(-4)), "unit": "%", "per": ""}


def amount_told(line: Line, typed: str) -> Line:
    """How much of it: quantity, unit, and in what the shop counts.

    Raises:
        Odd: no amount can be read, or its unit is not of the price's sort.

    """
    try:
        if line["sort"] == "labor" and line["per"] == "h":
            return hours_told(typed)
        if line["sort"] == "fluid":
            return fluid_told(line["per"], typed)
        return count_told(line["per"], typed)
    except Malformed as wrong:
        raise Odd("quantity", str(wrong)) from None
    except NotAnAmount as wrong:
        raise wrong if isinstance(wrong, Odd) else Odd("quantity", str(wrong)) from None


def hours_told(typed: str) -> Line:
    """Labor by the hour; nothing typed is not told."""
    if not typed:
        return {"unit": "h"}
    count = minutes(typed)
    text = hours_words(count)
    number, _, unit = text.partition(" ")
    return {"minutes": count, "quantity": number, "unit": unit or "h"}


def fluid_told(per: str, typed: str) -> Line:
    """Refrigerant, oil or dye: in a unit of mass or volume, and a price for one of the same.

    `much` is whole mg or µL.

    Raises:
        Odd: no unit, one of another sort than the price's, or a number out of reach.
        Malformed: no number.

    """
    if not typed:
        return {"per": per if per in (*MASSES, *VOLUMES) else ""}
    number, suffix = split(typed)
    unit = fluid_unit(suffix, per)
    if unit is None:
        raise Odd("quantity", OF_WHAT)
    count_in_reach(number)
    per = per or ("kg" if unit in MASSES else "L")
    if per not in (MASSES if unit in MASSES else VOLUMES):
        raise Odd("per", OTHER_UNIT)
    small = UNITS["g" if unit in MASSES else "mL"].factor / 1000
    much = whole(Fraction(number) * UNITS[unit].factor / small)
    return {"quantity": decimal_text(number), "unit": unit, "much": much, "per": per}


def fluid_unit(suffix: str, per: str) -> str | None:
    """The unit typed: of the sort that the price is in (oil in "oz" is fluid ounces), else any."""
    for allowed in [one for one in (MASSES, VOLUMES) if per in one] + [(*MASSES, *VOLUMES)]:
        unit = unit_named(suffix, allowed) if suffix else None
        if unit:
            return unit
    return None


def count_told(per: str, typed: str) -> Line:
    """Pieces, lengths, or once; nothing typed is one.

    Raises:
        Odd: the unit is not the price's, or a number out of reach.
        Malformed: no number.

    """
    number, suffix = split(typed) if typed else (Decimal(1), "")
    count_in_reach(number)
    if per in LENGTHS:
        unit = unit_named(suffix, LENGTHS) if suffix else per
        if unit is None:
            raise Odd("quantity", "Type it in m or ft.")
    elif suffix.lower().rstrip(".") not in PIECES or per not in ("piece", "time"):
        raise Odd("per" if per not in ("piece", "time") else "quantity", OTHER_UNIT)
    else:
        unit = per
    return {"quantity": decimal_text(number), "unit": unit}


def count_in_reach(number: Decimal) -> None:
    """Hold a count to what can be meant.

    Raises:
        Odd: not above zero, too fine, or too many.

    """
    exponent = number.as_tuple().exponent
    if number <= 0 or not isinstance(exponent, int) or exponent < -3:
        raise Odd("quantity", NO_COUNT)
    if number > COUNT_MOST:
        raise Odd("quantity", TOO_MANY)


def count_of(line: Line) -> Fraction | None:
    """How many of what the price is for; None: not told."""
    if not line["quantity"]:
        return None
    if line["minutes"] is not None:
        return Fraction(line["minutes"], 60)
    count, unit, per = Fraction(line["quantity"]), line["unit"], line["per"]
    if unit == per:
        return count
    return count * UNITS[unit].factor / UNITS[per].factor


def decimal_text(number: Decimal) -> str:
    """A number in digits, without zeros behind that say nothing."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def typed_of(line: Line, currency: str) -> dict[str, str]:
    """A line as it would be typed, to begin the next version with."""
    unit = "" if line["unit"] in ("h", "piece", "time") else line["unit"]
    brought = line["source"] == "customer" and line["price"] == 0
    price = "" if line["price"] is None or brought else plain(line["price"], currency)
    return {
        "code": line["code"],
        "sort": line["sort"],
        "words": line["words"],
        "quantity": f"{line['quantity']} {unit}".strip(),
        "price": price,
        "per": line["per"],
        "source": line["source"],
        "taxed": line["taxed"] or NO_TAX,
    }
