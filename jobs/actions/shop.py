"""Writing the shop's own row, and each change of it."""

from typing import Any

from jobs.logbook import Refused
from jobs.models import Entry, Shop, ShopChange
from jobs.models.shop import NONE_BEFORE

NO_SHOP = "The shop is not set up yet."
CHANGED_SINCE = "Somebody else changed this part meanwhile. Open it again and look."


def set_up_shop(name: str, address: str, currency: str, paper: str) -> Shop:
    """The shop, once.

    Raises:
        Refused: there is one already.

    """
    if Shop.objects.exists():
        raise Refused("The shop is set up already.")
    return Shop.objects.create(id=1, name=name, address=address, currency=currency, paper=paper)


def change_shop(entry: Entry, part: str, columns: dict[str, Any], seen: str | None) -> None:
    """Tell a part of the settings anew; what was before stays as its own row.

    `seen` is the key of the entry by which the part stood as the form was opened, or NONE_BEFORE;
    None where the form did not say.

    Raises:
        Refused: no shop yet, or another change came in between.

    """
    shop = Shop.objects.first()
    if shop is None:
        raise Refused(NO_SHOP)
    if seen is not None and seen != last_of(part):
        raise Refused(CHANGED_SINCE)
    for name, value in columns.items():
        setattr(shop, name, value)
    shop.save(update_fields=list(columns))
    ShopChange.objects.create(entry=entry, part=part, values=columns, from_at=entry.happened_at)


def last_of(part: str) -> str:
    """The key of the entry by which a part stands, or NONE_BEFORE."""
    told = ShopChange.objects.filter(part=part).order_by("-from_at", "-id")
    return str(told.values_list("entry__key", flat=True).first() or NONE_BEFORE)
