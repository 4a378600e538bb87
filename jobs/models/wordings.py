"""Words by code, as they are tapped at the counter, and the exact texts people agree to."""

import hashlib
from datetime import datetime

from django.utils import timezone
from django.utils.dateformat import format as date_words

SINCE = {
    "days": "Days",
    "weeks": "Weeks",
    "last_season": "Since last season",
    "longer": "Longer",
    "cannot_tell": "Can’t tell",
}
WARM_WHEN = {
    "always": "Always",
    "hot": "On hot days",
    "idle": "Standing still",
    "rain": "In rain",
}
YES_NO = {"yes": "Yes", "no": "No", "cannot_tell": "Can’t tell"}
PAYERS = {
    "customer": "Customer",
    "insurer": "Insurer",
    "warranty": "Warranty company",
    "fleet": "Fleet",
    "shop": "The shop itself",
}
CONSENT_WAYS = {"in_person": "In person", "phone": "By phone", "message": "By message"}

# What was agreed to is kept word for word: a text here is never edited. A better one gets a code
# of its own, and pages show the newest.
CONSENT_TEXTS = {
    "find_fault_1": (
        "I agree that the shop looks for the fault in my car’s air conditioning for up to the "
        "amount stated here, tax included. Taking the refrigerant out, weighing it and putting it "
        "back are included. Anything beyond that needs my agreement first."
    ),
}
CONSENT_NOW = "find_fault_1"


def text_hash(text: str) -> str:
    """SHA-256 (hex) of a text's UTF-8, by which a frozen text can be held to its copy."""
    return hashlib.sha256(text.encode()).hexdigest()


def words(table: dict[str, str], code: str) -> str:
    """The words of a code; a code not listed is shown as it was told."""
    return table.get(code, code)


def shop_day(at: datetime) -> str:
    """The day in the shop's time, such as 30 Nov 2026."""
    return in_shop_time(at).partition(",")[0]


def in_shop_time(moment: datetime) -> str:
    """A moment in the shop's zone, as pages and papers say it: 25 Aug 2026, 14:29."""
    return date_words(timezone.localtime(moment), "j M Y, H:i")
