"""The people of the shop."""

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models.functions import Lower
from django.utils.crypto import salted_hmac

from jobs.models.base import Keyed

TECHNICIAN = "technician"
DESK = "desk"
OWNER = "owner"
ROLES = {TECHNICIAN: "Technician", DESK: "Front desk", OWNER: "Owner"}
BAY = frozenset({TECHNICIAN, OWNER})  # who works on the cars


class People(BaseUserManager["Person"]):
    """Makes people; passwords and PINs are hashed on the way in."""

    def get_by_natural_key(self, username: str | None) -> "Person":
        """The person of that name, spelled in any case."""
        return self.get(name__iexact=username)


class Person(Keyed, AbstractBaseUser):
    """Someone who signs in. Owner and desk by password; everyone by PIN on a shop tablet.

    Sign-in counters are bookkeeping, not entries: they change without a logbook line. `pin` and
    `password` are hashes. `locked_at` is about the PIN; `passes_from` is when the owner ended all
    sign-ins made before.
    """

    name = models.CharField(max_length=80, unique=True)
    role = models.CharField(max_length=20)
    pin = models.CharField(max_length=128, blank=True)
    pin_misses = models.PositiveSmallIntegerField(default=0)
    pin_wait_until = models.DateTimeField(null=True, blank=True)
    password_misses = models.PositiveSmallIntegerField(default=0)
    password_wait_until = models.DateTimeField(null=True, blank=True)
    locked_at = models.DateTimeField(null=True, blank=True)
    is_active = models.BooleanField(default=True)
    passes_from = models.DateTimeField(null=True, blank=True)
    demo = models.BooleanField(default=False)

    objects: People = People()
    USERNAME_FIELD = "name"
    REQUIRED_FIELDS = ["role"]

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=list(ROLES)),
                name="person_role_known",
                violation_error_message="A person is technician, front desk or owner.",
            ),
            models.UniqueConstraint(
                Lower("name"),
                name="person_name_once",
                violation_error_message="Somebody of that name is already in the list.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def _get_session_auth_hash(self, secret: str | None = None) -> str:
        """What a sign-in is bound to: it ends when PIN or password change, or the owner ends it."""
        bound = f"{self.password} {self.pin} {self.passes_from}"
        return salted_hmac("shopac.session", bound, secret=secret, algorithm="sha256").hexdigest()

    @property
    def role_words(self) -> str:
        """The role as people say it."""
        return ROLES[self.role]
