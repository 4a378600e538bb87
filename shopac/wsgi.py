"""The site as a WSGI application, for granian."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopac.settings")
application = get_wsgi_application()
