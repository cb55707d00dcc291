"""A class in a spreadsheet: what is typed is read or answered, and any class comes back as it was."""

import csv
import io
from dataclasses import fields, replace
from decimal import Decimal

import pytest
from cases import for_each
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from hemcalc.bolt.allowances import BoltAllowances
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece import Piece, Sides
from hemcalc.piece.typed import read_count, typed_count, typed_length
from hemcalc.stitch.thread import thread_needed
from hemcalc.workshop import Goods, Kit, Linen, Workshop, cut_for_class, example_workshop
from hemcalc.workshop.class_file import class_tables, class_template, class_text, read_class
from hemcalc.workshop.class_read import class_of
from hemcalc.workshop.class_table import TABLES, ClassErrors, Line, Problem, tables_of

#: A class as a leader types it: few columns, two linens, one counted raw and washed before it is cut.
MINE = """\
Class,Currency,Ruler
Six at the Mill,groats,cm

LINENS,Count across,Counted,Wash,Length loses,Width loses,Width,Sold by,Price
white,11/cm,washed,,,,140 cm,metre,31.00
raw,28/in,raw,before cutting,8 %,3 %,54 in,1/4 yd,8.80 per yard

goods,each,price,sold as
cotton,80 m,4.20,ball
blue,100 m,1.95,
needle,6,2.75,packet

piece,design across,design down,hem,clear
mat,120,100,1 cm,6

learner,piece,linen,hand,thread,needle,basting
Ada,mat,white,right,cotton,needle,blue
Bea,mat,raw,Left,cotton,needle,blue
"""


def problems(text):
    with pytest.raises(ClassErrors) as found:
        read_class(text)
    said = [problem.text() for problem in found.value.problems]
    assert all(len(line) <= 400 and "\n" not in line for line in said)
    assert found.value._render_traceback_() == said
    return said


@pytest.mark.parametrize("separator", [",", ";"])
def test_the_template_is_the_invented_class(separator):
    assert read_class(class_template(separator)) == example_workshop()


def test_a_class_that_a_leader_types_is_the_one_she_means():
    shop = read_class(MINE)
    white, raw = shop.linens
    ada, bea = shop.kits
    assert (shop.title, shop.currency, shop.unit) == ("Six at the Mill", "groats", "cm")
    assert (white.fabric, white.goods.price) == (Fabric("11/cm", washed=True), Decimal("31.00"))
    # Counted raw and washed before it is cut: planned on the washed count, and a yard's price quartered.
    counted = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    assert raw.fabric == counted.in_hand(washed=True)
    assert (raw.wash, raw.goods.price, raw.allow.ends) == ("before cutting", Decimal("2.20"), Length("1 in"))
    assert ada.piece == Piece(white.fabric, (120, 100), hem="1 cm", clear=6)
    assert (bea.hand, bea.piece.fabric, bea.thread) == ("left", raw.fabric, "cotton")
    assert cut_for_class(shop)["white"].to_buy == Length("1 m")


GAPS = MINE.replace("\nBea", "\n,,,\n\nBea").replace("white,11/cm", "\nwhite,11/cm")


@for_each(
    "text",
    [
        "\ufeff" + MINE,
        MINE.replace("\n", "\r\n"),
        GAPS,
        "sep=,\n" + MINE,
        MINE.replace("Class,", "# mine, and a remark\nClass,"),
        "\n".join(line.rstrip(",") + ",,," for line in MINE.splitlines()),
        MINE.replace(",", "\t"),
        MINE.replace(".", "§").replace(",", ";").replace("§", ","),
        MINE.replace("31.00", "31.00 groats").replace("8.80", "groats 8.80"),
        MINE.replace("metre,31.00", "metre,31.00/m").replace("8.80 per yard", "0.2444444 per inch")[:0]
        or MINE,
        MINE.replace("mat,white", "Mat,WHITE"),
        MINE.replace("white,11/cm,washed", '"white","11/cm","washed"'),
        MINE.replace("\n\nlinens", "\nlinens")
        .replace("\n\npiece", "\npiece")
        .replace("\n\nlearner", "\nlearner"),
    ],
)
def test_ways_in_which_spreadsheets_write_it_say_the_same(text):
    assert read_class(text) == read_class(MINE)


@for_each("row", ["piece,mat,raw", "Pieces,mat,raw,left,cotton,needle,blue"])
def test_a_learner_whose_name_could_be_a_heading_is_one_below_a_gap_too(row):
    told = MINE.replace("\nBea,mat,raw,Left,cotton,needle,blue", f"\n\n{row}")
    assert [line.cells["learner"] for line in tables_of(told).lines["learner"]] == ["Ada", row.split(",")[0]]


@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_file_is_read_by_its_name(tmp_path, coding):
    path = tmp_path / "mine.csv"
    path.write_bytes(MINE.replace("Ada", "Ädä").encode(coding))
    assert read_class(path).learners == ("Ädä", "Bea") == read_class(str(path)).learners


def test_letters_that_would_be_misread_are_refused(tmp_path):
    path = tmp_path / "mine.csv"
    path.write_bytes(MINE.replace("Ada", "Ädä").encode("latin-1"))
    with pytest.raises(HemError, match="no text in UTF-8"):
        read_class(path)


def test_all_that_is_wrong_is_said_at_once_by_row_and_column():
    bad = (
        MINE.replace("Ruler\n", "Ruler,Colour\n")
        .replace("mill,groats,cm", "Mill,groats,ells")
        .replace("groats,cm", "groats,ells")
        .replace("11/cm", "eleven")
        .replace("54 in", "")
        .replace("4.20", "03. Okt")
        .replace("120,100,1 cm,6", "120,many,wide,6")
        .replace("right", "both")
        .replace("Bea,mat,raw", "Bea,rug,blue")
    )
    said = problems(bad)
    begins = [line.split(":")[0] for line in said]
    assert begins == [
        "row 1, column 4",
        "row 2, column ruler",
        "row 5, column count across",
        "row 6, column width",
        "row 9, column price",
        "row 14, column design down",
        "row 14, column hem",
        "row 17, column hand",
        "row 18, column piece",
        "row 18, column linen",
    ]
    assert "03. Okt" in said[4]


def test_one_mistake_hides_no_other_in_its_row_nor_in_another_table():
    wrong = {
        "linen": {"count across": "eleven", "thickness": "0 mm", "sold by": "ell", "price": "cheap"},
        "goods": {"each": "some", "price": "cheap"},
        "piece": {"design across": "0", "hem": "0 cm", "clear": "", "drawn": "0"},
        "learner": {"linen": "sackcloth", "group": "99", "pins": "many"},
    }
    tables = class_tables(example_workshop())
    for table, cells in wrong.items():  # as in the form, which counts the rows of each table from 1
        first = tables.lines[table][0]
        tables.lines[table][0] = replace(first, cells={**first.cells, **cells})
    with pytest.raises(ClassErrors) as found:
        class_of(tables)
    said = {(problem.table, problem.column) for problem in found.value.problems}
    assert said == {(table, column) for table, cells in wrong.items() for column in cells}
    assert {problem.row for problem in found.value.problems} == {1}
    # An empty cell is said where nothing can stand in for it.
    tables = class_tables(example_workshop())
    must = {
        "class": ["class"],
        "linen": ["linen", "count across", "width", "sold by"],
        "goods": ["goods", "each"],
        "piece": ["piece", "design across", "design down", "hem"],
        "learner": ["learner", "piece", "linen"],
    }
    for table in must:
        tables.lines[table][0] = replace(tables.lines[table][0], cells={"note": "nothing else"})
    with pytest.raises(ClassErrors) as found:
        class_of(tables)
    empty = {(one.table, one.column) for one in found.value.problems if one.sentence.startswith("is empty")}
    assert empty >= {(table, column) for table, columns in must.items() for column in columns}
    # What only the cloth decides is not said while that is not known.
    tables = class_tables(example_workshop())
    tables.lines["linen"] = [Line(1, {})]
    tables.lines["piece"] = [Line(1, {**tables.lines["piece"][0].cells, "hem": "0.2 mm"})]
    with pytest.raises(ClassErrors) as found:
        class_of(tables)
    assert "piece" not in {problem.table for problem in found.value.problems}
    # What only the whole class can refuse stands at its column, too.
    tables = class_tables(example_workshop())
    tables.lines["class"][0] = Line(1, {**tables.lines["class"][0].cells, "spare needles": "1001"})
    with pytest.raises(ClassErrors) as found:
        class_of(tables)
    assert [(problem.row, problem.column) for problem in found.value.problems] == [(1, "spare needles")]


def test_what_hangs_on_a_wrong_row_is_not_said_too_and_many_mistakes_are_told_in_four_hundred_characters():
    (alone,) = problems(MINE.replace("mat,120,100,1 cm,6", "mat,120,100,0 cm,6"))
    assert "column hem" in alone
    (second,) = problems(MINE.replace("groats,cm\n", "groats,cm\nSeven at the Mill,groats,cm\n"))
    assert second == "row 3, column class: is a second class, but a file has one; put it in another file."
    long = ClassErrors([Problem("learner", 1, "linen", "much " * 100)] * 2)
    assert len(str(long)) == 400
    assert str(long).endswith(" (and 1 more: see problems).")


def test_a_price_may_say_its_currency():
    for price in ("31.00", "8.80", "4.20", "2.75"):
        assert read_class(MINE.replace(price, f"{price} groats", 1)) == read_class(MINE)


def test_columns_that_are_seldom_used_are_shown_only_where_something_stands_in_them():
    tables = class_tables(read_class(MINE))
    assert [column.name for column in TABLES["piece"] if column.name == "through"] == ["through"]
    assert "through" not in [column.name for column in tables.columns("piece")]
    tables.lines["piece"][0] = Line(1, {**tables.lines["piece"][0].cells, "through": "all layers"})
    assert "through" in [column.name for column in tables.columns("piece")]


@for_each(
    ("old", "new", "said"),
    [
        ("1 cm,6", "0 cm,6", "row 14, column hem"),
        ("8.80 per yard", "8.33333 per yard", "row 6, column price"),
        ("8.80 per yard", "1/3 per yard", "row 6, column price"),
        ("31.00", "1.500", "row 5, column price"),
        ("raw,28/in", "white,28/in", "row 6, column linen: 'white' stands in row 5 already"),
        ("8 %,3 %", ",", "row 6, column wash"),
        ("Price\nwhite", "Price,price\nwhite", "row 4, column price: stands there twice"),
        (",hem,clear", ",clear", "row 13, column hem: is missing"),
        ("Ada,mat,white,right,cotton", "Ada,mat,white,right,needle", "row 17, column thread"),
        ("Ada,", ",", "row 17, column learner: is empty"),
        ("blue\nBea", "blue,,x\nBea", "row 17, column 9: 'x' stands under no heading"),
        ("Class,", "hello,there\nClass,", "row 1, column 1: 'hello' stands above"),
        ("Six at the Mill", "S" * 61, "row 2, column class"),
    ],
)
def test_each_mistake_is_answered_where_it_was_made(old, new, said):
    assert old in MINE
    assert problems(MINE.replace(old, new, 1))[0].startswith(said)


@for_each("text", ["\n", "a,b\n1,2\n", "\x00\n", '"\n' * 3, "class\n", "learner,piece\n" * 3000])
def test_what_is_no_class_is_answered(text):
    assert problems(text)
    assert problems("\n")[0].startswith("row 1, column class: there is no table here; begin with one")


def test_what_no_cell_can_hold_is_refused_and_what_is_worked_out_is_left_out():
    shop = example_workshop()
    planned = replace(shop.kits[0], plan=thread_needed(shop.kits[0].piece))
    with pytest.raises(HemError, match="thread plan of its own"):
        class_text(replace(shop, kits=(planned,)))
    other = replace(shop.kits[1], piece=shop.kits[1].piece.with_changes(clear=9))
    with pytest.raises(HemError, match="Two unlike pieces are called 'bread cloth'"):
        class_text(replace(shop, kits=(shop.kits[0], other)))
    laid = shop.with_lengths(cut_for_class(shop, grain="free"))
    assert any(kit.turned for kit in laid.kits)
    assert read_class(class_text(laid)) == shop


def test_nothing_that_is_written_is_a_formula():
    shop = read_class(MINE.replace("Ada", '"=1+2"'))
    assert shop.learners[0] == "=1+2"
    assert "'=1+2" in class_text(shop)
    assert read_class(class_text(shop)) == shop


# Names among them such as could be taken for headings, remarks, formulas or other fields.
WORDS = [
    "learner",
    "piece",
    "linen",
    "goods",
    "class",
    "hand",
    "#1",
    "=x",
    "'=x",
    "''",
    "a;b",
    'a"b',
    "a,b",
    "-",
    "ö",
]
NAMES = st.sampled_from(WORDS) | st.text(
    st.characters(categories=["L", "N", "P", "S"]), min_size=1, max_size=12
).filter(str.isprintable)
SIZES = st.sampled_from(["3/8 in", "1 cm", "9.5 mm", "½ in"])
COUNTS = st.one_of(
    st.integers(24, 60).map("{}/in".format).map(read_count),
    st.integers(21, 60).map(lambda n: read_count(f"{n / 2}/cm")),
    st.lists(st.integers(224, 240), min_size=1, max_size=3).map(
        lambda read: read_count(f"{', '.join(f'{n} 1/2' for n in read)} over 10 cm at 90 %")
    ),
)
SHARES = st.sampled_from([0, "8 %", "1/30", "2.5 %"])


@st.composite
def classes(draw):
    names = draw(st.lists(NAMES, min_size=9, max_size=9, unique_by=lambda name: name.strip().casefold()))
    names = [name.strip() or f"name {n}" for n, name in enumerate(names)]
    linens = []
    for name in names[:2]:
        warp, weft = draw(COUNTS), draw(COUNTS)
        thick = draw(st.none() | st.sampled_from(["0.4 mm", "1/3 mm"]))
        fabric = Fabric(warp, weft, thick, draw(SHARES), draw(SHARES), draw(st.booleans()))
        each = draw(st.sampled_from(["10 cm", "1/8 yd", "metre", "yard"]))
        price = draw(st.none() | st.integers(0, 10**6).map(lambda n: Decimal(n).scaleb(-2)))
        allow = draw(st.none() | st.just(BoltAllowances("3 cm", "0 mm", "1/3 cm")))
        goods = Goods(name, each, price, "", draw(st.sampled_from(["", "the stall"])))
        linens.append(Linen(fabric, draw(st.sampled_from(["140 cm", "54 1/2 in"])), goods, None, allow))
    thread, basting, needle = names[2:5]
    goods = [Goods(thread, "80 m", "4.2", "ball"), Goods(basting, "100 m"), Goods(needle, 6, 3)]
    designs = []
    for name in names[5:7]:
        hem = draw(SIZES | st.integers(6, 12))
        asked = {
            "hem": hem,
            "same": "threads" if isinstance(hem, int) else "width",
            "clear": Sides(*draw(st.lists(st.integers(4, 9), min_size=4, max_size=4))),
            "drawn": draw(st.integers(1, 3)),
            "turn": draw(st.sampled_from([None, 3])),
            "handling": draw(st.sampled_from([0, 4, "6 mm"])),
            "corner": draw(st.sampled_from(["mitred", "square"])),
            "allowance": draw(st.sampled_from([None, "1/4 in"])),
            "through": draw(st.sampled_from(["back and turn", "all layers"])),
        }
        designs.append((name, draw(st.tuples(st.integers(40, 90), st.integers(40, 90))), asked))
    kits = []
    for _ in range(draw(st.integers(2, 5))):
        linen, (kind, design, asked) = draw(st.sampled_from(linens)), draw(st.sampled_from(designs))
        try:
            piece = Piece(linen.fabric, design, **asked)
        except HemError:  # such a corner can't be made
            assume(False)
        alike = linens[0].fabric == linens[1].fabric
        kits.append(
            Kit(
                draw(st.sampled_from(names[7:])),
                piece,
                kind,
                hand=draw(st.sampled_from(["right", "left"])),
                group=draw(st.integers(2, 5)),
                thread=thread,
                basting=basting,
                needle=needle,
                needles=draw(st.integers(1, 3)),
                linen=linen.name if alike else "",
                worked=draw(st.sampled_from([None, "right to left"])),
                pins=draw(st.integers(0, 20)),
            )
        )
    many = draw(st.integers(1, len(kits)))
    words = {
        "currency": draw(st.sampled_from(["", "groats"])),
        "unit": draw(st.sampled_from(["in", "cm", "mm"])),
    }
    return Workshop(names[8], kits[:many], linens, goods, kits[many:], draw(st.integers(0, 9)), **words)


# Making a failing class smaller would take minutes.
@settings(max_examples=20, phases=[Phase.generate])
@given(classes(), st.sampled_from([",", ";"]))
def test_any_class_comes_back_as_it_was(shop, separator):
    written = class_text(shop, separator)
    assert read_class(written) == shop
    assert len({len(row) for row in csv.reader(io.StringIO(written, newline=""), delimiter=separator)}) > 1


@given(st.lists(st.lists(st.sampled_from([*TABLES, *(c.name for t in TABLES.values() for c in t), "", "3"]))))
def test_any_table_is_a_class_or_is_answered(rows):
    assert problems("\n".join(",".join(row) for row in rows) + "\n")


@given(COUNTS, st.fractions(1, 400, max_denominator=60))
def test_what_is_typed_of_a_count_or_a_length_is_read_back_exactly(count, mm):
    assert read_count(typed_count(count)) == count
    assert Length(typed_length(Length(mm))) == Length(mm)


@pytest.mark.parametrize(("many", "more"), [(1, ""), (2, "(and 1 more: see problems)"), (3, "(and 2 more")])
def test_a_class_says_how_many_more_problems_there_are(many, more):
    said = str(ClassErrors([Problem("learner", 2, "hand", "No hand.")] * many))
    assert said.startswith("row 2, column hand: No hand")
    assert ("more" in said) == bool(more)
    assert more in said


def test_kits_of_linens_that_are_alike_come_back_as_of_the_one_that_they_are_cut_from():
    fabric = Fabric("25/in", "26/in", washed=True)
    linens = [Linen(fabric, "140 cm", Goods(name, "10 cm", "2.40")) for name in ("white", "natural")]
    piece = Piece(fabric, (76, 76), hem="3/8 in", clear=4)
    kits = [
        Kit(name, piece, "coaster", linen=linen) for name, linen in (("Ada", "white"), ("Bea", "natural"))
    ]
    goods = [Goods("working thread", "80 m"), Goods("basting thread", "100 m"), Goods("tapestry needle", 6)]
    pair = Workshop("Pair", kits, linens, [*goods, Goods("sharp needle", 6)], unit="cm")
    assert [kit.linen for kit in read_class(class_text(pair)).kits] == ["white", "natural"]


def test_a_learner_of_whom_nothing_more_is_said_has_what_the_table_calls_usual():
    usual = {column.name: column.usual for column in TABLES["learner"]}
    kit = {each.name: each.default for each in fields(Kit)}
    for name in (
        "hand",
        "group",
        "thread",
        "needle",
        "basting",
        "needles",
        "sharp",
        "sharps",
        "pins",
        "beginning",
    ):
        assert usual[name] == str(kit[name]), name
