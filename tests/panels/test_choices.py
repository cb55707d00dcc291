"""What the sliders offer in each unit, and that a change of unit keeps what was chosen."""

from functools import cache
from itertools import pairwise, permutations

import pytest

from hemcalc.measure import Count, Length
from hemcalc.measure.units import UNITS
from hemcalc.panels.choices import COUNTS, HEMS, THICKNESSES, unit_choice, use_unit
from hemcalc.panels.controls import stops


@cache
def size(text):
    return Count(text).per_mm if "/in" in text or "/cm" in text else Length(text).mm


@pytest.mark.parametrize("offers", [COUNTS, HEMS], ids=["counts", "hems"])
def test_offers_rise_in_every_unit_and_are_exact(offers):
    assert set(offers) == set(UNITS)
    for texts in offers.values():
        assert all(size(a) < size(b) for a, b in pairwise(texts))
        assert not any("≈" in text for text in texts)


def test_thicknesses_rise():
    assert all(size(a) < size(b) for a, b in pairwise(THICKNESSES))


def test_counts_and_hems_are_said_in_their_unit():
    assert all(text.endswith("/in") for text in COUNTS["in"])
    assert all(text.endswith("/cm") for text in (*COUNTS["cm"], *COUNTS["mm"]))
    assert all(text.endswith(f" {unit}") for unit in UNITS for text in HEMS[unit])


def sliders():
    return {"count": stops("count", "count", COUNTS["in"], ""), "hem": stops("hem", "hem", HEMS["in"], "")}


@pytest.mark.parametrize(("before", "after"), list(permutations(UNITS, 2)))
def test_a_change_of_unit_keeps_each_offer_at_the_nearest_there_is(before, after):
    controls = sliders()
    for name, offers in (("count", COUNTS), ("hem", HEMS)):
        for text in offers[before]:
            use_unit(controls, before, ("count",), ("hem",))
            controls[name].widget.value = text
            use_unit(controls, after, ("count",), ("hem",))
            slider = controls[name].widget
            assert slider.options == offers[after]
            off = abs(size(slider.value) - size(text))
            assert all(off <= abs(size(other) - size(text)) for other in offers[after])


# 28 threads/in are 11.02 threads/cm; 1/2 in is 1.27 cm, by the inch of 25.4 mm ("International
# yard", web page, n.d., entry).
def test_there_and_back_again_the_usual_cloth_and_hem_are_what_they_were():
    controls = sliders()
    controls["count"].widget.value, controls["hem"].widget.value = "28/in", "1/2 in"
    use_unit(controls, "cm", ("count",), ("hem",))
    assert (controls["count"].value, controls["hem"].value) == ("11/cm", "1.3 cm")
    use_unit(controls, "mm", ("count",), ("hem",))
    assert (controls["count"].value, controls["hem"].value) == ("11/cm", "13 mm")
    use_unit(controls, "in", ("count",), ("hem",))
    assert (controls["count"].value, controls["hem"].value) == ("28/in", "1/2 in")


def test_the_same_unit_again_changes_nothing():
    controls = sliders()
    controls["hem"].widget.value = "3/8 in"
    seen = []
    controls["hem"].widget.observe(seen.append)
    use_unit(controls, "in", ("count",), ("hem",))
    assert seen == []


def test_offers_and_choice_reach_the_page_in_one_message(monkeypatch):
    controls = sliders()
    slider = controls["hem"].widget
    slider.value = HEMS["in"][-1]
    sent = []
    monkeypatch.setattr(slider, "_send", lambda message, buffers=None: sent.append(message["state"]))
    monkeypatch.setattr(type(slider), "comm", property(lambda self: object()), raising=False)
    use_unit(controls, "mm", (), ("hem",))
    assert len(sent) == 1
    assert sent[0]["_options_labels"] == HEMS["mm"]
    assert HEMS["mm"][sent[0]["index"]] == "25 mm"


def test_units_are_offered():
    assert unit_choice().widget.options == UNITS
