"""A piece kept in a file: nothing lost, nothing overwritten, and every broken file refused in a sentence."""

import json
import os
import pathlib
import sys
import tempfile
from fractions import Fraction

import jsonschema
import pytest
from cases import for_each
from hostile import any_text
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.measure import Count, Fabric, HemError, Length, files
from hemcalc.measure.files import read_file, write_file
from hemcalc.piece import EXAMPLES, Piece, Sides, form, load_piece, save_piece
from hemcalc.piece.form import FIELDS
from hemcalc.piece.kept import LARGEST_FILE
from hemcalc.piece.piece import THROUGH

SCHEMA_FILE = pathlib.Path(__file__).parents[2] / "data" / "piece.schema.json"
SCHEMA = json.loads(SCHEMA_FILE.read_text("utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)

COASTER = EXAMPLES["coaster"]
ODD = Piece(
    Fabric(
        Count.measured([112, "112 1/2", 113], "4 in"),
        Count(Fraction(55, 2), "1 in"),
        thickness="0.4 mm",
        shrink_warp="8 %",
        shrink_weft=Fraction(1, 30),
    ),
    (120, 90),
    hem=Length(Fraction(127, 13)),
    clear=Sides(4, 5, 6, 7),
    drawn=3,
    turn=" 1/8  in",
    handling="1½ cm",
    allowance=Length("3/16 in"),
)

# From 3.14 on Python reads as many as its stack can bear, which is more than a file may hold.
NESTED = ("breaks off",) if sys.version_info >= (3, 14) else ("brackets",)

shares = st.fractions(0, Fraction(1, 2), max_denominator=10**30)
sizes = st.fractions(5, 20, max_denominator=10**25).map(Length)


def refused(doing, *words, about=None):
    """The sentence with which something is refused, with these words in it."""
    with pytest.raises(HemError) as caught:
        doing()
    said = str(caught.value)
    for word in words:
        assert word in said, said
    assert caught.value.about
    if about is not None:
        assert caught.value.about == about
    return said


@st.composite
def counts(draw):
    over = draw(st.sampled_from(("1 in", "1 cm", "1/2 in", "10 cm", Length(Fraction(127, 7)))))
    per_mm = draw(st.fractions(Fraction(1, 2), 3, max_denominator=10**12))
    threads = per_mm * Length(over).mm if isinstance(over, str) else per_mm * over.mm
    if draw(st.booleans()):
        extra = draw(st.lists(st.integers(1, 9), max_size=4))
        return Count.measured([threads, *(threads + Fraction(n, 2) for n in extra)], over)
    return Count(threads, over)


@st.composite
def pieces(draw):
    same = draw(st.sampled_from(("width", "threads")))
    corner = draw(st.sampled_from(("mitred", "untrimmed", "square", "uncut")))
    cut = corner in ("mitred", "square")
    clear = st.integers(0, 12)
    hem = draw(st.one_of(st.sampled_from(("3/8 in", "1 cm", "⅜ in", " 9,5  mm")), sizes))
    return Piece(
        Fabric(
            draw(counts()),
            draw(counts()),
            draw(st.one_of(st.none(), sizes)),
            draw(shares),
            draw(shares),
            draw(st.booleans()),
        ),
        draw(st.tuples(*[st.integers(1, 400)] * 2)),
        hem=hem if same == "width" else draw(st.integers(8, 24)),
        clear=Sides(*(draw(clear) for _ in range(4))),
        drawn=draw(st.integers(1, 5)),
        turn=draw(st.sampled_from((None, 1, "1 mm", Length(Fraction(5, 7))))),
        handling=draw(st.one_of(st.sampled_from((0, 12, "1 cm")), sizes)),
        same=same,
        corner=corner,
        allowance=draw(st.sampled_from(("1 mm", "1/32 in", Length(Fraction(2, 3))))) if cut else None,
        eye=draw(st.sampled_from(("1 cm", "0 mm", Length(Fraction(127, 9))))),
        through=draw(st.sampled_from(THROUGH)),
    )


def kept(piece):
    """The bytes of a piece's file, and the piece that is read from them."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "piece.json")
        save_piece(piece, path)
        return path.read_bytes(), load_piece(path)


def loaded(content):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "piece.json")
        path.write_bytes(content if isinstance(content, bytes) else json.dumps(content).encode())
        return load_piece(path)


def all_of(piece):
    """Everything that a piece holds, with what equality alone overlooks: kinds, and how a count was had."""
    held = {name: getattr(piece, name) for name in ("design", "clear", "drawn", "same", "corner", "through")}
    for name in ("hem", "turn", "handling", "allowance", "eye"):
        held[name] = type(getattr(piece, name)), getattr(piece, name)
    for name in ("warp", "weft"):
        count = getattr(piece.fabric, name)
        held[name] = type(count), count.threads, count.over, getattr(count, "readings", None), count.error
    for name in ("thickness", "shrink_warp", "shrink_weft", "washed"):
        held[name] = getattr(piece.fabric, name)
    return held


# There and back


@given(pieces())
@settings(max_examples=20, deadline=None)
def test_a_piece_comes_back_with_all_that_it_holds(piece):
    content, again = kept(piece)
    assert again == piece
    assert all_of(again) == all_of(piece)
    VALID.validate(json.loads(content))
    assert kept(again)[0] == content


@for_each("piece", [*EXAMPLES.values(), ODD])
def test_the_example_pieces_come_back_and_plan_the_same(piece):
    _, again = kept(piece)
    assert all_of(again) == all_of(piece)
    assert again.notes == piece.notes
    assert again.cut_size == piece.cut_size


def test_the_file_can_be_read_by_eye():
    content, _ = kept(ODD)
    document = json.loads(content)
    assert document["format"] == "hemcalc piece"
    assert document["version"] == 2
    assert document["fabric"]["warp"] == {
        "readings": ["112", "225/2", "113"],
        "over": "4 in",
        "confidence": "19/20",
    }
    assert document["fabric"]["weft"] == "55/2 per in"
    assert document["fabric"]["shrink_warp"] == "2/25"
    assert document["handling"] == "1½ cm"
    assert "½".encode() in content
    assert document["hem"] == {"length": "5/13 in"}
    assert json.loads(kept(COASTER)[0])["fabric"]["warp"] == "25/in"


@for_each(
    ("field", "typed", "meant"),
    [
        ("warp", "28 threads to the inch", Count("28/in")),
        ("thickness", "0,5 mm", Length(Fraction(1, 2))),
        ("shrink_warp", "8 %", Fraction(2, 25)),
        ("shrink_weft", "8/100", Fraction(2, 25)),
        ("shrink_weft", "0.08", Fraction(2, 25)),
    ],
)
def test_what_is_typed_by_hand_within_the_form_is_read(field, typed, meant):
    document = json.loads(kept(COASTER)[0])
    document["fabric"][field] = typed
    assert getattr(loaded(document).fabric, field) == meant


def test_a_needles_eye_of_nothing_is_read_however_it_is_written():
    for nothing in ("0.0 mm", {"length": "0 mm"}, {"length": "0,0 cm"}):
        assert loaded(changed(eye=nothing)).with_changes(eye="1 cm") == COASTER


def test_a_piece_of_the_first_version_is_read_and_says_what_is_usual_of_the_rest():
    document = json.loads(kept(COASTER)[0]) | {"version": 1}
    del document["eye"], document["through"]
    assert loaded(document) == COASTER
    assert (COASTER.eye, COASTER.through) == ("1 cm", THROUGH[0])


def test_a_mark_in_front_of_the_text_is_no_matter():
    assert loaded(b"\xef\xbb\xbf" + kept(COASTER)[0]) == COASTER


def test_the_schema_is_a_sound_one_and_has_the_fields_that_are_read():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    places = {
        "piece": SCHEMA,
        "fabric": SCHEMA["properties"]["fabric"],
        "clear": SCHEMA["properties"]["clear"],
        "count": SCHEMA["$defs"]["count"]["anyOf"][1],
        "reckoned length": SCHEMA["$defs"]["reckoned"],
    }
    assert set(places) == set(FIELDS)
    for what, place in places.items():
        assert tuple(place["properties"]) == FIELDS[what]
        optional = {"confidence"} if what == "count" else set()
        assert set(place["required"]) == set(FIELDS[what]) - optional
        assert place["additionalProperties"] is False
    assert SCHEMA["properties"]["version"]["const"] == form.VERSION
    assert SCHEMA["properties"]["format"]["const"] == form.FORMAT


# Files that are none


def changed(**fields):
    document = json.loads(kept(COASTER)[0])
    for name, value in fields.items():
        place = document
        *path, last = name.split("__")
        for part in path:
            place = place[part]
        if value is ...:
            del place[last]
        else:
            place[last] = value
    return document


@for_each(
    ("content", "words"),
    [
        (b"", ("breaks off",)),
        (b"{", ("breaks off", "line 1")),
        (kept(COASTER)[0][:-30], ("breaks off",)),
        (b"\xff\xfe{\x00}\x00", ("UTF-8",)),
        ("ä".encode("latin-1"), ("UTF-8",)),
        (b"[" * 60_000, NESTED),
        (b'{"a":' * 12_000, NESTED),
        (b"[]", ("no piece", "hemcalc piece")),
        (b"null", ("no piece",)),
        (b'"hemcalc piece"', ("no piece",)),
        (b"{}", ("no piece",)),
        (b'{"format": "hemcalc piece", "format": "hemcalc piece"}', ("'format'", "twice")),
        (b'{"format": "hemcalc piece", "version": 1, "version": 1}', ("'version'", "twice")),
        (b'{"version": NaN}', ("NaN", "text")),
        (b'{"version": -Infinity}', ("-Infinity", "text")),
        (b'{"version": 1.0}', ("The number 1.0 is", "text")),
        (b'{"version": 1e999}', ("1e999", "text")),
        (b'{"version": ' + b"9" * 5000 + b"}", ("5000 figures",)),
        (b'{"format": "\\ud800"}', ("no piece",)),
        (changed(version=3), ("version 3", "newer")),
        (changed(version=0), ("version is 0",)),
        (changed(version=True), ("version is True",)),
        (changed(version="1"), ("version is '1'",)),
        (changed(version=...), ("version is None",)),
        (changed(hem=...), ("lacks the field hem",)),
        (changed(fabric__weft=...), ("fabric lacks the field weft",)),
        (changed(clear__top=...), ("clear lacks the field top",)),
        (changed(colour="blue"), ("'colour'", "not known")),
        (changed(fabric__colour="blue"), ("'colour'", "not known")),
        (changed(fabric="28/in"), ("fabric is '28/in'",)),
        (changed(clear=4), ("clear is 4",)),
        (changed(clear__top="4"), ("clear is '4'", "whole number")),
        (changed(fabric__warp=28), ("A count is written as text",)),
        (changed(fabric__warp="28"), ("does not say to what length",)),
        (changed(fabric__warp="28/0 in"), ("warp",)),
        (changed(fabric__warp={"readings": ["28"]}), ("lacks the field over",)),
        (changed(fabric__warp={"readings": [], "over": "1 in"}), ("readings", "empty")),
        (changed(fabric__warp={"readings": "28", "over": "1 in"}), ("readings", "'28'")),
        (changed(fabric__warp={"readings": ["1/0"], "over": "1 in"}), ("1/0",)),
        (changed(fabric__warp={"readings": [[28]], "over": "1 in"}), ("a list",)),
        (changed(fabric__washed="yes"), ("washed is 'yes'",)),
        (changed(fabric__thickness=3), ("thickness",)),
        (changed(fabric__shrink_warp=0), ("shrink_warp is 0", "text")),
        (changed(fabric__shrink_warp="9/10"), ("shrink_warp", "50 %")),
        (changed(fabric__shrink_warp="1/0"), ("0 below its line",)),
        (changed(design=[76]), ("design", "two whole numbers")),
        (changed(design=[76, True]), ("design is True",)),
        (changed(design=[76, None]), ("design is None",)),
        (changed(design="76"), ("design",)),
        (changed(hem=None), ("hem is None",)),
        (changed(hem=[9]), ("hem is a list",)),
        (changed(hem={"length": 3}), ("hem", "text")),
        (changed(hem={"length": "1/0 in"}), ("hem", "0 below")),
        (changed(hem={"width": "3 mm"}), ("'width'",)),
        (changed(hem=9), ("hem is 9", "same='width'")),
        (changed(turn="9 in"), ("turn is", "no wider")),
        (changed(drawn=0), ("drawn is 0",)),
        (changed(drawn="2"), ("drawn is '2'",)),
        (changed(same="size"), ("same is 'size'",)),
        (changed(same=["width"]), ("same is a list",)),
        (changed(corner="round"), ("corner is 'round'",)),
        (changed(allowance=3), ("allowance",)),
        (changed(allowance="9 in"), ("allowance", "miss the cloth")),
    ],
)
def test_a_file_that_is_no_piece_is_refused_in_a_sentence_that_names_it(content, words):
    refused(lambda: loaded(content), "In 'piece.json': ", *words)


def test_a_sentence_stays_short_whatever_the_file_is_called_and_says(tmp_path):
    path = tmp_path / ("ä" * 120 + ".json")
    path.write_text(json.dumps(changed(**{"x" * 5000: "y" * 5000})), "utf-8")
    refused(lambda: load_piece(path), "is not known")


def test_a_huge_file_is_not_read(tmp_path):
    path = tmp_path / "huge.json"
    path.write_bytes(b" " * LARGEST_FILE + kept(COASTER)[0])
    refused(lambda: load_piece(path), "'huge.json'", "larger than", about="path")
    path.write_bytes(kept(COASTER)[0].ljust(LARGEST_FILE))
    assert load_piece(path) == COASTER


def test_a_piece_that_would_make_a_huge_file_is_not_written(tmp_path):
    counted = Count.measured([28] * 10_000, "1 in")
    piece = Piece(Fabric(counted), (100, 100), hem="3/8 in", clear=4)
    refused(lambda: save_piece(piece, tmp_path / "p.json"), "readings")
    fine = Piece(
        Fabric(Count.measured([28 - Fraction(1, 3**2000), 28 + Fraction(1, 3**2000)], "1 in")),
        (100, 100),
        hem="3/8 in",
        clear=4,
    )
    refused(lambda: save_piece(fine, tmp_path / "p.json"), "finely divided")
    assert list(tmp_path.iterdir()) == []


def test_the_finest_numbers_that_a_piece_may_have_are_kept():
    finest = Length(Fraction(2**2048 - 1, 2**2047 + 1) * 5)
    count = Count(Fraction(28 * 2**1000 + 1, 2**1000), "1 in")
    piece = Piece(Fabric(count, thickness=finest), (100, 100), hem="3/8 in", clear=4)
    assert all_of(kept(piece)[1]) == all_of(piece)


@given(st.data())
@settings(max_examples=40, deadline=None)
def test_a_file_that_is_damaged_is_refused_or_still_a_piece(data):
    content = bytearray(kept(data.draw(st.sampled_from((COASTER, ODD))))[0])
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(content) - 1))
        way = data.draw(st.sampled_from(("byte", "cut", "drop", "double", "put")))
        if way == "byte":
            content[at] = data.draw(st.integers(0, 255))
        elif way == "cut":
            del content[max(at, 1) :]
        elif way == "drop":
            del content[at : at + data.draw(st.integers(0, 20))]
        elif way == "double":
            content[at:at] = content[at : at + data.draw(st.integers(1, 40))]
        else:
            token = st.sampled_from((b"null", b"[", b"{}", b"-1", b"1e9", b"NaN", b'"', b",", b"\\u0000"))
            content[at:at] = data.draw(token)
        content = content or bytearray(b"x")
    assert_refused_or_a_piece(bytes(content))


json_values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 10**9)
    | any_text(max_size=90)
    | st.sampled_from(("1 in", "2/25")),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(("length", "readings", "over", "left", "x")), inner, max_size=3)
    ),
    max_leaves=6,
)
PLACES = [*FIELDS["piece"], *(f"fabric__{name}" for name in FIELDS["fabric"]), "clear__left"]


@given(st.dictionaries(st.sampled_from(PLACES[::-1]), st.just(...) | json_values, min_size=1, max_size=2))
@settings(max_examples=40, deadline=None)
def test_a_file_with_other_values_is_refused_or_still_a_piece(fields):
    # The inner ones first, while there is still something that they are in.
    ordered = dict(sorted(fields.items(), key=lambda field: "__" not in field[0]))
    assert_refused_or_a_piece(json.dumps(changed(**ordered)).encode())


def assert_refused_or_a_piece(content):
    try:
        piece = loaded(content)
    except HemError:
        said = refused(lambda: loaded(content))
        assert len(said) > 10
        return
    VALID.validate(json.loads(content.decode("utf-8-sig")))
    assert kept(piece)[1] == piece


# Places that can't be read or written


@for_each("path", [None, 3, b"piece.json", "", "  ", "a\0b", ["a"]])
def test_what_is_no_name_of_a_file_is_refused(path):
    refused(lambda: save_piece(COASTER, path), "path is", about="path")
    refused(lambda: load_piece(path), "path is", about="path")


def test_what_is_no_piece_is_refused(tmp_path):
    refused(lambda: save_piece("coaster", tmp_path / "p.json"), "piece is 'coaster'", about="piece")
    refused(lambda: save_piece(COASTER, tmp_path / "p.json", replace="yes"), "replace is 'yes'")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_or_a_pipe_is_no_file(tmp_path):
    refused(lambda: load_piece(tmp_path), "a folder", about="path")
    refused(lambda: save_piece(COASTER, tmp_path, replace=True), "a folder")
    refused(lambda: save_piece(COASTER, tmp_path), "a folder")
    if hasattr(os, "mkfifo"):
        os.mkfifo(tmp_path / "pipe")
        refused(lambda: load_piece(tmp_path / "pipe"), "no ordinary file")
        refused(lambda: save_piece(COASTER, tmp_path / "pipe", replace=True), "no ordinary file")


def test_what_is_not_there_is_said(tmp_path):
    refused(lambda: load_piece(tmp_path / "p.json"), "no file 'p.json'")
    refused(lambda: load_piece(tmp_path / "none" / "p.json"), "no folder 'none'")
    refused(lambda: save_piece(COASTER, tmp_path / "none" / "p.json"), "no folder 'none'")
    (tmp_path / "file").write_bytes(b"")
    refused(lambda: save_piece(COASTER, tmp_path / "file" / "p.json"), "no folder 'file'")
    refused(lambda: save_piece(COASTER, tmp_path / ("x" * 400)), "can't be written")
    refused(lambda: load_piece(tmp_path / ("x" * 400)), "can't be read")


def test_what_is_not_permitted_is_said_and_leaves_all_as_it_was(tmp_path, monkeypatch):
    path = tmp_path / "p.json"
    path.write_bytes(b"hers")

    def forbidden(*args, **kwargs):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files.os, "access", lambda *args: False)
    refused(lambda: save_piece(COASTER, path, replace=True), "permissions forbid")
    monkeypatch.undo()
    monkeypatch.setattr("builtins.open", forbidden)
    refused(lambda: load_piece(path), "permissions forbid")
    refused(lambda: save_piece(COASTER, tmp_path / "q.json"), "permissions forbid")
    monkeypatch.undo()
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("p.json", b"hers")]


# Nothing overwritten, nothing left half done


def test_a_file_that_is_there_is_not_written_over_unasked(tmp_path):
    path = tmp_path / "p.json"
    path.write_bytes(b"hers")
    refused(lambda: save_piece(COASTER, path), "'p.json'", "replace=True", about="path")
    assert path.read_bytes() == b"hers"
    save_piece(COASTER, path, replace=True)
    assert load_piece(path) == COASTER
    assert os.listdir(tmp_path) == ["p.json"]


@pytest.mark.parametrize("links", [True, False])
def test_a_file_that_appears_meanwhile_is_not_written_over(tmp_path, monkeypatch, links):
    path = tmp_path / "p.json"
    to_the_disk = files.os.fsync

    def somebody_else_writes_first(file):
        to_the_disk(file)
        path.write_bytes(b"theirs")

    def no_links(*args):
        raise PermissionError(1, "Operation not permitted")  # as a stick says

    if not links:
        monkeypatch.setattr(files.os, "link", no_links)
        save_piece(COASTER, path)
        assert load_piece(path) == COASTER
        path.unlink()
    monkeypatch.setattr(files.os, "fsync", somebody_else_writes_first)
    refused(lambda: save_piece(COASTER, path), "already")
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("p.json", b"theirs")]


@pytest.mark.parametrize("there", [True, False])
@pytest.mark.parametrize("steps", [("fsync",), ("replace", "link", "rename")])
@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_failure_leaves_the_old_file_or_none_and_nothing_else(tmp_path, monkeypatch, there, steps, error):
    path = tmp_path / "p.json"
    if there:
        path.write_bytes(b"hers")

    def fails(*args):
        raise error

    for name in steps:
        monkeypatch.setattr(files.os, name, fails)
    if isinstance(error, OSError):
        refused(lambda: save_piece(COASTER, path, replace=there), "No space left")
    else:
        with pytest.raises(KeyboardInterrupt):
            save_piece(COASTER, path, replace=there)
    monkeypatch.undo()
    assert [each.read_bytes() for each in tmp_path.iterdir()] == ([b"hers"] if there else [])


def test_what_is_written_is_on_the_disk_before_it_takes_its_place(tmp_path, monkeypatch):
    done = []
    for name in ("fsync", "link", "replace"):
        step = getattr(os, name)
        monkeypatch.setattr(files.os, name, lambda *to, n=name, do=step: (done.append(n), do(*to)))
    save_piece(COASTER, tmp_path / "p.json")
    save_piece(COASTER, tmp_path / "p.json", replace=True)
    assert done == ["fsync", "link", "fsync", "fsync", "replace", "fsync"]


def test_a_file_has_the_permissions_that_others_have(tmp_path):
    new = tmp_path / "new.json"
    usual = tmp_path / "usual"
    usual.write_bytes(b"")
    save_piece(COASTER, new)
    assert new.stat().st_mode == usual.stat().st_mode
    new.chmod(0o640)
    save_piece(COASTER, new, replace=True)
    assert new.stat().st_mode & 0o777 == 0o640


@given(st.binary(max_size=200))
@settings(max_examples=15, deadline=None)
def test_any_file_is_written_whole_and_read_whole(content):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "anything")
        write_file(path, content)
        assert read_file(path, most=len(content)) == content
        if content:
            refused(lambda: read_file(path, most=len(content) - 1), "larger")
