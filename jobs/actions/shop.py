"""Writing the shop's own row."""

from jobs.logbook import Refused
from jobs.models import Shop


def set_up_shop(name: str, address: str, currency: str, paper: str) -> Shop:
    """The shop, once.

    Raises:
        Refused: there is one already.

    """
    if Shop.objects.exists():
        raise Refused("The shop is set up already.")
    return Shop.objects.create(id=1, name=name, address=address, currency=currency, paper=paper)
