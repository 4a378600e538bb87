"""Money as whole numbers of a currency's smallest unit, and how it is typed and shown.

Codes and decimals follow ISO 4217, list one (the currencies in use; funds, metals and test codes
left out), written from memory and compared with Debian's iso-codes; the decimals are compared with
the Unicode CLDR inside the browser (tests/browser/test_money.py). Where a currency's small coin
went out of use the standard still counts its decimals, and so do we.
"""

from decimal import Decimal

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split

# By the number of decimals; all others have two.
_NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF"
_TWO = (
    "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD "
    "CDF CHF CNY COP CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ "
    "GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL "
    "MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR "
    "PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT "
    "TOP TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG"
)
_THREE = "BHD IQD JOD KWD LYD OMR TND"
DECIMALS: dict[str, int] = {
    code: decimals
    for decimals, codes in ((0, _NONE), (2, _TWO), (3, _THREE))
    for code in codes.split()
}
# Beyond this a whole number is no longer exact in a page's script (2^53).
MINOR_MAX = 2**53 - 1
TOO_MUCH = "That is more money than a shop can mean. Type the amount again."
_NUMBER_WORDS = {0: "no decimals", 2: "two decimals", 3: "three decimals"}


class NotAnAmount(ValueError):
    """What was typed is no amount of that currency; the sentence says why."""


def minor(typed: str, currency: str) -> int:
    """The smallest units in an amount as typed, `12.50` or `1 200,50`, its code behind it or not.

    Raises:
        NotAnAmount: no number, below zero, too many decimals, another currency, or far too large.
        KeyError: the currency is none of ISO 4217.

    """
    decimals = DECIMALS[currency]
    said = typed.strip()
    if said[:3].upper() == currency:
        said = said[3:]
    try:
        number, unit = split(said)
    except Malformed as wrong:
        raise NotAnAmount(str(wrong)) from None
    if unit.upper() not in ("", currency):
        raise NotAnAmount(f"Amounts here are in {currency}. Type the number alone.")
    if number < 0:
        raise NotAnAmount("An amount is zero or more. Type it without a minus sign.")
    exponent = number.as_tuple().exponent
    if not isinstance(exponent, int) or -exponent > decimals:  # 1.200 may have meant 1200
        raise NotAnAmount(
            f"{currency} has {_NUMBER_WORDS[decimals]}; “{typed.strip()}” has more. "
            "Type thousands without a mark."
        )
    units = number.scaleb(decimals)
    if units > MINOR_MAX:
        raise NotAnAmount(TOO_MUCH)
    return int(units)


def shown(units: int, currency: str) -> str:
    """An amount with its code: thousands parted by a no-break space, decimals after a point.

    Raises:
        KeyError: the currency is none of ISO 4217.

    """
    return f"{plain(units, currency)}\u00a0{currency}"


def plain(units: int, currency: str) -> str:
    """An amount without its code, as it is filled into a field.

    Raises:
        KeyError: the currency is none of ISO 4217.

    """
    decimals = DECIMALS[currency]
    number = Decimal(units).scaleb(-decimals)
    return f"{number:,.{decimals}f}".replace(",", "\u00a0")


def millionths(typed: str) -> int:
    """A share typed in percent, `8.25` or `8,25 %`, as whole millionths: exact, never rounded.

    Raises:
        NotAnAmount: no number, below zero, over a hundred, or finer than a millionth.

    """
    try:
        number, unit = split(typed)
    except Malformed as wrong:
        raise NotAnAmount(str(wrong)) from None
    if unit not in ("", "%"):
        raise NotAnAmount("Type it in percent, such as 8.25.")
    if not 0 <= number <= 100:
        raise NotAnAmount("A share is from 0 to 100 %.")
    exact = number * 10_000
    if exact != exact.to_integral_value():
        raise NotAnAmount("Type it with four decimals at most.")
    return int(exact)


def percent(share: int) -> str:
    """Millionths in percent, without the sign, as filled into a field."""
    number = Decimal(share).scaleb(-4)
    return f"{number:f}".rstrip("0").rstrip(".") if share % 10_000 else str(share // 10_000)
