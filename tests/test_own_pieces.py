"""The figures of common practice that belong together are no demo: one test holds them, and no other text.

What to look for must be said somewhere: here, as patterns and in parts. So this file leaves itself out.
"""

import json
import re
import subprocess
from pathlib import Path

from cases import for_each

ROOT = Path(__file__).parents[1]
TEXTS = (".py", ".ipynb", ".md", ".csv", ".json")

#: The one test that may hold them, with its rows, and the page that prints every row.
ALLOWED = {
    "tests/sources/test_edge_published.py",
    "data/published.csv",
    "notebooks/09_against_the_handbooks.ipynb",
    "tests/test_own_pieces.py",
}

_COUNT = r"\b32(?:\.0)?(?: ?/ ?in| threads (?:to|per) the inch| threads to the inch| threads/in| to the inch)"
_HEM = r"(?:\b1/2 in|\b12\.7 ?mm|hem(?:=| of | )?16\b|\bin\", 16,)"
_CLEAR = r"(?:clear(?:=| |: ?|\", )?(?:1–)?8\b|\b8 threads (?:left |stay |of )?clear)"

#: What makes a set, each part anywhere in so many characters.
SETS = {
    "count, hem and clear band": (180, (_COUNT, _HEM, _CLEAR)),
    "first thread drawn and cut": (
        120,
        (r"(?:first[ _]drawn\W{0,6}| thread )9\b", r"cut\W{0,4}(?:after )?50\b"),
    ),
    "hem, turn, first thread and cut": (20, (r"\(16, 8, 9, 5", r"9, 50\b")),
    "the sum of the ledger": (24, (r"\b8 \+ 2 \+ 16 \+ 16 ", r"16 \+ 8\b")),
    "clear, drawn and face": (60, (r"drawn 9–10\b", r"face 11–26\b")),
    "rule and need": (60, (r"\b64 threads", r"\b50 threads")),
    "thread and needle": (120, (r"pearl[ _]cotton[ (]*12\b", r"tapestry[ _]needle[ (]*26\b")),
    "the square with short tails": (
        90,
        (r"\(24, 24\)|design of 24\b", r"hem(?:=| of )16\b", r"\b8 thread|=8\b"),
    ),
    "seven, eight and nine left over": (
        90,
        (r"\beight\b|\(8, \(4, 4\)\)", r"\bseven\b|\(7, \(4", r"\bnine\b|\(9, \(4"),
    ),
}


def tracked():
    """Every text of the project, by its path."""
    said = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True)
    names = [name for name in said.stdout.split("\0") if name.endswith(TEXTS)]
    return [name for name in names if (ROOT / name).is_file()]


def words_of(name):
    """What a file says: a notebook's cells and outputs without its pictures, any other file as it is."""
    text = (ROOT / name).read_text(encoding="utf-8")
    if not name.endswith(".ipynb"):
        return text
    said = []
    for cell in json.loads(text)["cells"]:
        said.append("".join(cell["source"]))
        for output in cell.get("outputs", ()):
            shown = (output.get("text", ""), *output.get("data", {}).values())
            said += ["".join(text) for text in shown if isinstance(text, str | list)]
    return re.sub(r"base64,[\w+/=]+", "", "\n".join(said))


def sets_in(text):
    """The names of the sets that a text holds."""
    plain = " ".join(text.split()).replace('"six", "seven", "eight", "nine"', "number words in a row")
    return {name for name, (within, parts) in SETS.items() if _together(plain, within, parts)}


def _together(text, within, parts):
    first, *others = (re.compile(part) for part in parts)
    for found in first.finditer(text):
        start = max(found.start() - within, 0)
        near = text[start : found.end() + within]
        if all(other.search(near) for other in others):
            return True
    return False


def test_no_text_holds_the_set_but_the_one_that_may():
    names = tracked()
    assert len(names) > 200
    assert {kind for kind in TEXTS if any(name.endswith(kind) for name in names)} == set(TEXTS)
    holds = {name: sets_in(words_of(name)) for name in names if name not in ALLOWED}
    assert {name: found for name, found in holds.items() if found} == {}


# Each set as a text would say it, put together only here.
SAID = {
    "count, hem and clear band": ('plan_edge("', "32", '/in", "1/2 in", cl', "ear=8)"),
    "first thread drawn and cut": ('{"first drawn": ', '9, "fold 1": 26, "cut": ', "50}"),
    "hem, turn, first thread and cut": ("(16, 8,", " 9, ", "50, 64)"),
    "the sum of the ledger": ("8 + 2 + ", "16 + 16", " + 8"),
    "clear, drawn and face": ("clear 1–8, drawn ", "9–10, face ", "11–26"),
    "rule and need": ("The rule of four asks for ", "64 threads, ", "50 threads are needed"),
    "thread and needle": ('"pearl cotton ', '12, white", "tapestry needle ', '26"'),
    "the square with short tails": ("Piece(cloth, (24,", " 24), hem=", '16, same="threads", clear=8)'),
    "seven, eight and nine left over": ("with ", "eight left all is well, ", "seven or ", "nine take one"),
}


@for_each("name", SETS)
def test_a_text_that_held_one_would_be_found(name):
    assert name in sets_in("x " * 300 + "".join(SAID[name]) + " x" * 300)
    # Its parts far from each other are no set.
    assert name not in sets_in((" x" * 300).join(SAID[name]))
