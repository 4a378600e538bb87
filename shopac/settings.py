"""Settings of the site. What a shop may set comes from the environment, read here and only here.

SHOPAC_DATA      folder of the shop's data
SHOPAC_DATABASE  URL of the database; empty: SQLite in that folder
SHOPAC_HOSTS     host names the site answers to, separated by commas; loopback always
SHOPAC_HTTPS     1 when served over HTTPS: cookies and headers then insist on it
SHOPAC_BACKUPS   folder for the backups, best on another disk; empty: in the folder of data
SHOPAC_DEBUG     1 while developing
SHOPAC_ZONE      the shop's time zone, an IANA name; empty: this machine's, else UTC
"""

import os
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.core.exceptions import ImproperlyConfigured

from shopac.data_folder import data_folder, secret_key
from shopac.database import database


def _switch(name: str) -> bool:
    told = os.environ.get(name, "0")
    if told not in ("0", "1", ""):
        raise ImproperlyConfigured(f"{name} is “{told}”; it can be 0 or 1.")
    return told == "1"


def _zone() -> str:
    told = os.environ.get("SHOPAC_ZONE", "")
    if not told:
        link = Path("/etc/localtime")
        told = str(link.resolve()).partition("/zoneinfo/")[2] if link.exists() else ""
    try:
        return ZoneInfo(told).key if told else "UTC"
    except (ZoneInfoNotFoundError, ValueError):
        if os.environ.get("SHOPAC_ZONE"):
            raise ImproperlyConfigured(
                f"SHOPAC_ZONE is “{told}”; it takes a name such as Europe/Vienna."
            ) from None
        return "UTC"


BASE_DIR = Path(__file__).resolve().parent.parent
DATA = data_folder()
BACKUPS = Path(os.environ.get("SHOPAC_BACKUPS") or DATA / "backups").expanduser().absolute()
HTTPS = _switch("SHOPAC_HTTPS")
DEBUG = _switch("SHOPAC_DEBUG")
SECRET_KEY = secret_key(DATA)
HOSTS = [host.strip() for host in os.environ.get("SHOPAC_HOSTS", "").split(",") if host.strip()]
if "*" in HOSTS:
    raise ImproperlyConfigured("SHOPAC_HOSTS must name the hosts; “*” would answer to any.")
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]", *HOSTS]

INSTALLED_APPS = [
    "shopac",
    "jobs",
    "diagnostics",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_htmx",
    "crispy_forms",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "shopac.middleware.security_headers",
    "shopac.middleware.bounded",
    "shopac.middleware.database_trouble",
    "shopac.middleware.Sessions",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "shopac.middleware.nothing_lost",
]

ROOT_URLCONF = "shopac.urls"
WSGI_APPLICATION = "shopac.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "jobs.views.screen.drawn_for",
                "shopac.views.worker.program_version",
            ],
        },
    },
]
CRISPY_TEMPLATE_PACK = "crispy"
CRISPY_ALLOWED_TEMPLATE_PACKS = ("crispy",)

try:
    DATABASES = {"default": database(os.environ.get("SHOPAC_DATABASE", ""), DATA)}
except ValueError as wrong:
    raise ImproperlyConfigured(str(wrong)) from None
CACHES = {
    "default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"},
    # What was concluded of cars, under all that it rests on: never old, and nobody's if lost.
    "weighed": {
        "BACKEND": "django.core.cache.backends.filebased.FileBasedCache",
        "LOCATION": DATA / "weighed",
        "TIMEOUT": None,
        "OPTIONS": {"MAX_ENTRIES": 4000},
    },
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "jobs.Person"
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "sign_in"
LOGIN_REDIRECT_URL = "board"
SESSION_COOKIE_NAME = "shopac_sign_in"
SESSION_COOKIE_AGE = 12 * 3600  # a working day; what is kept on a tablet does not depend on it
SESSION_COOKIE_SECURE = HTTPS
CSRF_COOKIE_NAME = "shopac_csrf"
CSRF_COOKIE_SECURE = HTTPS
CSRF_FAILURE_VIEW = "shopac.views.held_post.held_post"
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = 3600 if HTTPS else 0
SILENCED_SYSTEM_CHECKS = [
    "security.W005",  # HSTS for subdomains: the shop's other machines are not ours to bind
    "security.W021",  # HSTS preload: a host name inside a shop is on no browser's list
]
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"

# A photo of a modern camera is under 12 MB; several come with one entry.
PHOTO_BYTES_MAX = 16 * 1024 * 1024
PHOTOS_PER_ENTRY_MAX = 12
DATA_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024
BODY_BYTES_MAX = PHOTO_BYTES_MAX * PHOTOS_PER_ENTRY_MAX + DATA_UPLOAD_MAX_MEMORY_SIZE
FILE_UPLOAD_MAX_MEMORY_SIZE = 1024 * 1024
FILE_UPLOAD_HANDLERS = [
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]

LANGUAGE_CODE = "en-us"
USE_I18N = False
USE_TZ = True
TIME_ZONE = _zone()

STATIC_URL = "static/"
STATIC_ROOT = DATA / "static"
STATICFILES_DIRS = [
    BASE_DIR / "static",
    ("tables", BASE_DIR / "diagnostics" / "physics" / "tables"),
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "shopac.static_files.Storage"},
}
if DEBUG:
    STORAGES["staticfiles"] = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "%(asctime)s %(levelname)s %(name)s: %(message)s"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
