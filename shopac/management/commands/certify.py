"""Make the shop's certificate for its network; refused while a sign-in of the demo works."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shopac.demo_sign_ins import refuse_demo_sign_ins
from shopac.lan import addresses, chosen, kept
from shopac.lan.addresses import is_address
from shopac.lan.authority import fingerprint
from shopac.trouble import CannotStart


class Command(BaseCommand):
    """`manage.py certify NAME`: what a start with --lan does before it serves."""

    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        """The name comes from the start, which keeps it."""
        parser.add_argument("name", help="what tablets call the shop")

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Make what is missing or due, and print what is compared when a tablet is paired.

        Raises:
            CommandError: a sign-in of the demo works, or the certificate cannot be made.

        """
        here = addresses.own()
        try:
            name = chosen.checked_name(options["name"])
            refuse_demo_sign_ins()
            for made in kept.ensure(settings.DATA, name, here, timezone.now()):
                self.stderr.write(made)
        except CannotStart as wrong:
            raise CommandError(str(wrong)) from None
        leads = addresses.leads_to(name)
        if not set(leads) & set(here):
            self.stderr.write(where_name_leads(name, leads, here))
        self.stdout.write("Fingerprint of the authority, to compare when a tablet is paired:")
        self.stdout.write(f"  {fingerprint(chosen.authority(settings.DATA).read_bytes())}")


def where_name_leads(name: str, leads: list[str], here: list[str]) -> str:
    """What to do about a name that does not lead to this machine, as far as this machine knows."""
    if is_address(name):
        return f"Mind that this machine does not have the address {name}: no tablet will reach it."
    found = f"leads to {' and '.join(leads)}" if leads else "is not known here"
    to = here[0] if here else "this machine’s address"
    return (
        f"Mind that {name} {found}. Tablets need the name: let the shop’s router give {to} for it "
        "(README.md, On the shop’s network)."
    )
