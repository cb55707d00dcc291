"""Counts and shrinkage as published: what follows beyond the single figures.

Those are rows of data/, each with a test in test_rows.py.
"""

from fractions import Fraction

import pytest

from hemcalc.measure import Count, Fabric, Length

TEN_CM = Length("10 cm")


# Linen for painting No. 1: 208 ± 6 ends and 190 ± 6 picks to 10 cm.
# Source: GOST 29250-91 Coarse linen and union fabrics, USSR/CIS interstate standard, 1991,
# table, linen for painting No. 1.
@pytest.mark.parametrize(("per_10_cm", "per_cm"), [(208, "20.8"), (190, "19.0")], ids=["ends", "picks"])
def test_a_count_to_10_cm_is_ten_times_the_count_to_one(per_10_cm, per_cm):
    count = Count(f"{per_10_cm}/10 cm")
    assert count == Count(f"{per_cm}/cm") == Count(per_10_cm, TEN_CM)
    assert count.threads_in(TEN_CM) == per_10_cm


def test_a_published_linen_keeps_its_two_counts_apart():
    linen = Fabric("208/10 cm", "190/10 cm")
    assert (linen.across.per_cm, linen.down.per_cm) == (Fraction("20.8"), 19)
    assert linen.across.per_inch / linen.down.per_inch == Fraction(208, 190)


# Counted over 10 cm and divided by 10, a thread more or less is 0.1 thread to the cm (derived).
# Source: A study of French painting canvases, JAIC 20(1), K. Vanderlip Carbonnel, 1980, 2.1.1, p. 3-20.
@pytest.mark.parametrize("threads", [200, 280, 225])
def test_a_thread_more_over_10_cm_is_a_tenth_more_to_the_centimetre(threads):
    count, one_more = Count(threads, TEN_CM), Count(threads + 1, TEN_CM)
    assert one_more.per_cm - count.per_cm == Fraction("0.1")
    measured = Count.measured([threads], over=TEN_CM)
    assert measured.relative_worst * measured.per_cm == Fraction("0.1")


# A count is of threads, plied or not: plies are not multiplied, so a count takes no factor for them.
# Source: Revised test method further defines fabric count (Standardization News), ASTM, 2003, Feb 2003.
# (Nothing to compute: hemcalc asks only for threads.)


# A dimension change is (Xt - X0) / X0 x 100 %, negative when the cloth shrinks.
# Source: UNE-EN ISO 5077:2008 (laboratory summary), AENOR / ISO, 2008, summary.
@pytest.mark.parametrize(("before", "after"), [("50 cm", "46 cm"), ("35 cm", "33.95 cm"), ("50 cm", "50 cm")])
def test_a_shrinkage_is_the_published_dimension_change_with_its_sign_turned(before, after):
    first, last = Length(before), Length(after)
    change = (last.mm - first.mm) / first.mm * 100
    cloth = Fabric("28/in", shrink_warp=f"{-change} %")
    assert cloth.unwashed_size(Length(0), last)[1] == first
    assert cloth.unwashed_size(last, Length(0))[0] == last
