"""How this tablet shows the pages: light or dark, how large a millimeter is, where the pad stands.

Kept in a cookie of the tablet's own, read as a page is drawn, so that the first paint is right and
no script is needed. It is no entry: it says nothing of a car.
"""

import re
from dataclasses import dataclass
from decimal import Decimal

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from jobs.passes import TABLET_COOKIE_AGE

COOKIE = "shopac_screen"
KEPT = re.compile(r"(light|dark)_(\d\.\d)_(right|left)", re.ASCII)
TYPED = re.compile(r"\d{1,2}(\.\d{1,3})?", re.ASCII)
LEAST, MOST, STEP = Decimal("3.0"), Decimal("9.9"), Decimal("0.1")
ASK = f"Type a number from {LEAST} to {MOST}, such as 5.9."
NO_CHOICE = "That is none of the choices below."


@dataclass(frozen=True)
class Screen:
    """What was chosen for a tablet; as it comes: light, 6 px to the millimeter, pad right."""

    look: str = "light"
    mm: str = "6.0"
    side: str = "right"

    def kept(self) -> str:
        """As the cookie has it; static/offline/screen.js reads the same."""
        return f"{self.look}_{self.mm}_{self.side}"

    def wider(self) -> str:
        """One step more px to the millimeter, as far as they go."""
        return str(min(Decimal(self.mm) + STEP, MOST))

    def narrower(self) -> str:
        """One step fewer."""
        return str(max(Decimal(self.mm) - STEP, LEAST))


def this_screen(request: HttpRequest) -> Screen:
    """What the tablet that asks has chosen; anything else in the cookie is nothing chosen."""
    found = KEPT.fullmatch(request.COOKIES.get(COOKIE, ""))
    if not found or not LEAST <= Decimal(found[2]) <= MOST:
        return Screen()
    return Screen(found[1], found[2], found[3])


def drawn_for(request: HttpRequest) -> dict[str, Screen]:
    """For every template: what templates/base.html writes on <html>."""
    return {"screen": this_screen(request)}


@require_http_methods(["GET", "HEAD", "POST"])
def screen(request: HttpRequest) -> HttpResponse:
    """Choose one thing a tap; whoever stands at the tablet, signed in or not."""
    if request.method != "POST":
        return render(request, "jobs/screen.html", {"typed": this_screen(request).mm})
    chosen, problem = chosen_by(request)
    if problem:
        said = {"typed": request.POST.get("mm", ""), "problem": problem}
        return render(request, "jobs/screen.html", said, status=422)
    response = redirect("screen")
    response.set_cookie(
        COOKIE, chosen.kept(), max_age=TABLET_COOKIE_AGE, samesite="Lax", secure=settings.HTTPS
    )
    return response


def chosen_by(request: HttpRequest) -> tuple[Screen, str]:
    """The screen with what was tapped or typed now, and what is wrong with it, if anything is."""
    now, told = this_screen(request), request.POST
    look = told.get("look", now.look)
    side = told.get("side", now.side)
    typed = told.get("mm", now.mm).strip().replace(",", ".")
    if not TYPED.fullmatch(typed) or not LEAST <= round(Decimal(typed), 1) <= MOST:
        return now, ASK
    if not KEPT.fullmatch(f"{look}_6.0_{side}"):
        return now, NO_CHOICE
    return Screen(look, f"{Decimal(typed):.1f}", side), ""
