"""Cars drawn from the network."""

from collections import Counter

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.network import OTHER
from diagnostics.evidence.simulation.cars import FITTED, Car, draw, faults, hidden, model_for
from diagnostics.evidence.simulation.worlds import world_of

DRAWN = 4000
HOME = world_of("home", 1, 0)


def that_do_not_cool(fitted: int) -> list[dict[str, str]]:
    """Cars as they come into a bay; the network has it that they do not cool."""
    rng = np.random.default_rng(7)
    cars = [hidden(model_for(fitted), HOME, rng) for _ in range(DRAWN)]
    return [car for car in cars if car["cools"] == "no"]


@pytest.mark.parametrize("fitted", [0, 5])
def test_answers_come_as_often_as_the_network_says(fitted):
    model, cars = model_for(fitted), that_do_not_cool(fitted)
    assert len(cars) > DRAWN / 2
    shares = Belief(model.sizes, model.factors)
    for name, codes in model.answers.items():
        counted = Counter(car[name] for car in cars)
        for code, share in zip(codes, shares.alone(name)[0], strict=True):
            deviation = (share * (1 - share) / len(cars)) ** 0.5
            counts = counted[code] / len(cars)
            assert counts == pytest.approx(share, abs=4.5 * deviation), (name, code)


def test_answers_that_hang_together_come_together():
    """An empty loop and a command refused for it, as often as the network says."""
    model, cars = model_for(0), that_do_not_cool(0)
    found = sum(car["amount"] == "empty" and car["command"] == "refused_low" for car in cars)
    joint = Belief(model.sizes, model.factors).of(["amount", "command"])[0]
    share = joint[model.at("amount", "empty"), model.at("command", "refused_low")]
    deviation = (share * (1 - share) / len(cars)) ** 0.5
    assert found / len(cars) == pytest.approx(share, abs=4 * deviation)


def test_no_car_that_is_drawn_cools():
    assert all(draw((1, number), HOME, KINDS).answers["cools"] == "no" for number in range(60))


def test_the_same_number_is_the_same_car():
    one, two, other = (draw(key, HOME, KINDS) for key in ((1, 5), (1, 5), (2, 5)))
    assert one == two
    assert one != other


def test_the_shares_of_what_comes_into_a_bay_make_a_hundred():
    assert sum(share for share, _ in FITTED) == 100


def test_a_cause_outside_the_list_is_in_half_of_the_cars_of_that_world_and_in_none_at_home():
    world = world_of("outside", 1, 0)
    cars = [draw((1, number), world, KINDS) for number in range(300)]
    beyond = [car for car in cars if car.beyond]
    assert 120 < len(beyond) < 180
    assert all(car.answers[car.beyond] == OTHER for car in beyond)
    assert not any(draw((1, number), HOME, KINDS).beyond for number in range(20))


def test_what_is_rightly_so_is_no_fault():
    answers = {"command": "refused_cold", "cabin": "as_designed", "amount": "low", "gas": "ok"}
    assert faults(Car(FITTED[0][1], answers, "", {}, (1, 0))) == {"amount": "low"}
