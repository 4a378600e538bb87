"""Currency decimals held against the Unicode CLDR that comes with the browser."""

from playwright.sync_api import Page

from jobs.money import DECIMALS

# Too new for the browser's tables (Caribbean guilder 2025, Zimbabwe gold 2024).
TOO_NEW = {"XCG", "ZWG"}
# The standard counts decimals whose coins are out of use; the CLDR, made for display, does not.
COINS_GONE = set("AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR RSD SOS SYP YER".split())

ASK = """codes => {
  const known = Intl.supportedValuesOf("currency");
  return codes.filter(code => known.includes(code)).map(code => [
    code,
    new Intl.NumberFormat("en", {style: "currency", currency: code})
      .resolvedOptions().maximumFractionDigits,
  ]);
}"""


def test_decimals_are_those_of_the_cldr_but_for_coins_out_of_use(page: Page):
    theirs = dict(page.evaluate(ASK, sorted(DECIMALS)))
    differ = {code for code, digits in theirs.items() if digits != DECIMALS[code]}
    assert differ <= COINS_GONE
    assert all(theirs[code] == 0 for code in differ)
    assert set(DECIMALS) - set(theirs) <= TOO_NEW | {"SLE", "VED"}
