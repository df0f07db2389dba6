import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network

KEY = NetworkCause("key", 0.1)


def test_refuses_causes_that_bring_each_other_about():
    with pytest.raises(KnowledgeFault, match="in a circle"):
        fault_network([NetworkCause("a", 0.1, {"b": 0.5}), NetworkCause("b", 0.1, {"a": 0.5})], [])


def test_refuses_a_chance_above_one():
    with pytest.raises(KnowledgeFault, match=r"“key” has a chance of 1\.2"):
        fault_network([NetworkCause("key", 1.2)], [])


def test_refuses_a_row_that_does_not_sum_to_one():
    with pytest.raises(KnowledgeFault, match=r"“spark” sums to 0\.9"):
        fault_network([KEY], [NetworkFinding("spark", (0.8, 0.1), {})])


def test_refuses_a_row_with_too_few_chances():
    with pytest.raises(KnowledgeFault, match="Give one chance for each result"):
        fault_network([KEY], [NetworkFinding("spark", (0.8, 0.1, 0.1), {"key": (0.5, 0.5)})])


def test_refuses_a_cause_it_does_not_know():
    with pytest.raises(KnowledgeFault, match="names the cause “coil”"):
        fault_network([KEY], [NetworkFinding("spark", (0.9, 0.1), {"coil": (0.5, 0.5)})])


def test_refuses_two_causes_of_one_name():
    with pytest.raises(KnowledgeFault, match="same name"):
        fault_network([KEY, KEY], [])


def test_knows_which_causes_have_a_say():
    idle = NetworkFinding("idle", (0.9, 0.1), {"key": (1.0, 0.0), "coil": (0.5, 0.5)})
    network = fault_network([KEY, NetworkCause("coil", 0.2)], [idle])
    assert network.findings["idle"].touched == (1,)
