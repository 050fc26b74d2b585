from armorplan.kernel.units import mm_to_ounces, near, ounces_to_mm


def test_ounces_go_there_and_back():
    assert near(ounces_to_mm(8), 3.175)
    assert near(mm_to_ounces(ounces_to_mm(9.5)), 9.5)


def test_near_is_absolute():
    assert near(1000.0, 1000.0 + 1e-7)
    assert not near(0.0, 0.001)
    assert near(2.0, 2.04, within_mm=0.05)
