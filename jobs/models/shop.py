"""The shop itself: one row."""

from django.db import models


class Shop(models.Model):
    """Name, address and currency as they are printed; there is exactly one."""

    name = models.CharField(max_length=120)
    address = models.TextField(blank=True)
    currency = models.CharField(max_length=3)
    paper = models.CharField(max_length=10, default="a4")
    demo = models.BooleanField(default=False)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(id=1),
                name="shop_is_one",
                violation_error_message="There is one shop in a data folder.",
            ),
            models.CheckConstraint(
                condition=models.Q(paper__in=["a4", "us-letter"]),
                name="shop_paper_known",
                violation_error_message="Paper is A4 or Letter.",
            ),
        ]

    def __str__(self) -> str:
        return self.name
