"""What was delivered stays on the tablet for a fortnight, and no longer."""

from datetime import timedelta

from tests.offline.tablet import Tablet
from tests.offline.test_clock import DAYS_MS, WRONG_CLOCK, set_clock
from tests.offline.test_kept import job_taken_in

MINUTE = timedelta(minutes=1)
FORTNIGHT = timedelta(days=14)
KEYS = "shopac.store.all('delivered').then((all) => all.map((one) => one.key))"
SET_BACK = """([key, ms]) => shopac.store.write(["delivered"], async (at) => {
  const entry = await shopac.store.value(at("delivered").get(key));
  at("delivered").put({ ...entry, at: Date.now() - ms });
})"""


def set_back(tablet: Tablet, key: str, age: timedelta) -> None:
    """As if the entry had been acknowledged so long ago."""
    tablet.page.evaluate(SET_BACK, [key, age / timedelta(milliseconds=1)])


def test_an_entry_is_forgotten_a_fortnight_after_it_was_delivered(tablet: Tablet):
    old, young = job_taken_in(tablet, "KX.4731D"), job_taken_in(tablet, "PW.5504K")
    set_back(tablet, old, FORTNIGHT + MINUTE)
    set_back(tablet, young, FORTNIGHT - 5 * MINUTE)
    tablet.open("/unsent/")
    tablet.wait_for(f"{KEYS}.then((keys) => !keys.includes('{old}'))")
    assert tablet.ask(KEYS) == [young]


def test_a_clock_that_jumps_ahead_makes_the_tablet_forget_nothing(tablet: Tablet):
    old, young = job_taken_in(tablet, "KX.4731D"), job_taken_in(tablet, "PW.5504K")
    tablet.context.add_init_script(WRONG_CLOCK)
    set_clock(tablet, 10 * DAYS_MS)
    set_back(tablet, old, FORTNIGHT + MINUTE)
    tablet.open("/unsent/")
    tablet.wait_for(f"{KEYS}.then((keys) => !keys.includes('{old}'))")
    assert tablet.ask(KEYS) == [young]
