"""The demo’s cylinders: bought and filled; and what single cars gave back or took."""

from shopac.management.demo.told import FIRST_OWNER, SAND, Fields, Line, key_of

GREEN, BLUE, NEW, FRESH, OTHERS = "green", "blue", "new 134", "new 1234", "others"


def of_shop(line: str, hours: float, entry: str, **fields: str) -> Line:
    """An entry of the owner on no job."""
    return (line, hours, FIRST_OWNER, entry, "", fields)


CYLINDERS: tuple[Line, ...] = (
    of_shop(GREEN, 7320, "cylinder", kind="refillable", refrigerant="R-134a",
            name="Cylinder 2", serial="RC-20418", tare="12.6 kg", water_capacity="26.2 kg",
            tested_until="2029-05-31"),
    of_shop(BLUE, 7320, "cylinder", kind="refillable", refrigerant="R-1234yf",
            name="Cylinder 3", serial="RC-20733", tare="12.4 kg", water_capacity="26.2 kg",
            tested_until="2028-11-30"),
    of_shop(OTHERS, 7319, "cylinder", kind="contaminated", name="Cylinder 9, mixed",
            serial="RC-18806", tare="12.7 kg", water_capacity="26.2 kg",
            tested_until="2027-02-28"),
    of_shop(NEW, 7310, "purchase", cylinder="new", refrigerant="R-134a",
            amount="13.6 kg", from_whom="Hallam Vale Supply", paper="HV 88213", name="New R-134a",
            serial="HV-51177", tare="2.9 kg"),
    of_shop(FRESH, 7310, "purchase", cylinder="new", refrigerant="R-1234yf",
            amount="4.5 kg", from_whom="Hallam Vale Supply", paper="HV 88214",
            name="New R-1234yf", serial="HV-60291", tare="2.4 kg"),
)  # fmt: skip


def key(name: str) -> str:
    """A cylinder as forms name it: without dashes."""
    return key_of(name).hex


def recovered(job: str, hours: float, grams: str, who: str = SAND, **more: str) -> Line:
    """What came out of a car, by the scale of its cylinder."""
    told: Fields = {
        "cylinder": key(GREEN),
        "grams_out": grams,
        "machine": "newer",
        "temperature": "24",
        "gas": "identified",
        "read_by": "scale",
        "waited": "steady",
        "hoses": "emptied",
        **more,
    }
    return (f"{job} recovery {hours}", hours, who, "recovery", job, told)


def charged(job: str, hours: float, grams: str, who: str = SAND, **more: str) -> Line:
    """What went into a car by weight."""
    told: Fields = {
        "cylinder": key(NEW),
        "grams_in": grams,
        "hose": "into_car",
        "leak": "none",
        "fill": "full",
        **more,
    }
    return (f"{job} charge {hours}", hours, who, "charge", job, told)
