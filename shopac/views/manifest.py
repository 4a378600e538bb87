"""What a tablet needs to know to put the site on its start screen."""

from django.http import HttpRequest, JsonResponse
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.http import require_safe

TOUCH = "#0d3b78"
PAPER = "#ffffff"


@require_safe
def manifest(_request: HttpRequest) -> JsonResponse:
    """The web application manifest (W3C), with one icon that scales."""
    said = {
        "name": "shopac",
        "short_name": "shopac",
        "start_url": reverse("board"),
        "scope": "/",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": TOUCH,
        "icons": [{"src": static("icon.svg"), "sizes": "any", "type": "image/svg+xml"}],
    }
    return JsonResponse(said, content_type="application/manifest+json")
