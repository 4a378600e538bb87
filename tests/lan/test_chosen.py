"""Name and port are chosen once: shopac/lan/chosen.py."""

import pytest

from shopac.lan.chosen import Chosen, checked_name, choose, keep, read
from shopac.trouble import CannotStart


@pytest.fixture
def folder(tmp_path):
    keep(tmp_path, Chosen("shop.home.arpa", 8443, 8080))
    return tmp_path


def test_nothing_told_is_the_usual_name(tmp_path):
    assert choose(tmp_path, [], []).address == "https://shop.home.arpa:8443/"


def test_what_was_chosen_stays_without_being_told_again(tmp_path):
    keep(tmp_path, choose(tmp_path, ["bay.lan"], [9443]))
    assert choose(tmp_path, [], []) == Chosen("bay.lan", 9443, 8080)


def test_the_same_name_may_be_told_again(folder):
    assert choose(folder, ["Shop.Home.Arpa."], [8443]) == read(folder)


@pytest.mark.parametrize(
    ("names", "ports", "twice"),
    [
        (["bay.lan"], [], "--name bay.lan --name bay.lan"),
        ([], [9443], "--port 9443 --port 9443"),
        (["192.168.1.20"], [], "--name 192.168.1.20 --name 192.168.1.20"),
    ],
    ids=["name", "port", "address instead of name"],
)
def test_a_change_is_refused_with_its_reason_and_the_way_to_mean_it(folder, names, ports, twice):
    with pytest.raises(CannotStart, match="not sent yet would stay behind") as refused:
        choose(folder, names, ports)
    assert twice in str(refused.value)


def test_a_change_told_twice_is_meant(folder):
    assert choose(folder, ["bay.lan", "bay.lan"], []).name == "bay.lan"
    assert choose(folder, [], [9443, 9443]).port == 9443


def test_two_different_names_are_not_one_told_twice(folder):
    with pytest.raises(CannotStart):
        choose(folder, ["bay.lan", "yard.lan"], [])


def test_pairing_may_move(folder):
    assert choose(folder, [], [], 8081).pair_port == 8081


def test_pages_and_pairing_need_a_port_each(tmp_path):
    with pytest.raises(CannotStart, match="--pair-port"):
        choose(tmp_path, [], [8080])


@pytest.mark.parametrize("name", ["shop.home.arpa", "shop.local", "10.0.0.5", "192.168.1.20"])
def test_names_and_private_addresses_are_taken(name):
    assert checked_name(name) == name


@pytest.mark.parametrize(
    "name",
    ["shop", "", "shop..arpa", "-a.lan", "a_b.lan", "8.8.8.8", "127.0.0.1", "x.localhost", "1.2.3"],
)
def test_what_tablets_could_not_use_is_not_taken(name):
    with pytest.raises(CannotStart):
        checked_name(name)


def test_a_choice_that_cannot_be_read_is_not_replaced(folder):
    (folder / "lan.json").write_text("{")
    with pytest.raises(CannotStart, match="cannot be read"):
        choose(folder, [], [])
