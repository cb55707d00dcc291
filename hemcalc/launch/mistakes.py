"""The first mistakes of someone who doesn't program, each answered in a sentence and not with a traceback.

An extension of IPython, which only the kernels that ``open`` starts are told to load: another
program that uses hemcalc is left as it is. ``%tb`` still shows a traceback to who wants it.
"""

from __future__ import annotations

import difflib
import re
import sys
import warnings
from typing import Any

from hemcalc.measure.errors import shown

_FROM_THE_TOP = "run the page from the top: choose Run, then Run All Cells"
_FRACTIONS = "¼½¾⅛⅜⅝⅞"
_NUMBER = rf"(?:\d+[ ]+)?\d+/\d+|\d+[.,]?\d*[ ]*[{_FRACTIONS}]?|[{_FRACTIONS}]"
#: A number with its unit, as on paper; what stands in quotes was taken out.
_ON_PAPER = re.compile(rf"(?<![\w.])({_NUMBER})[ ]*(inches|inch|in|cm|mm|yd|m|threads|%|\")(?!\w)")
_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
_CURLY = re.compile("[“”„‟‘’‚«»]")


def load_ipython_extension(shell: Any) -> None:
    """Have this shell of IPython answer in sentences."""
    warnings.filterwarnings("ignore", category=SyntaxWarning)  # at 3/8in, of which the sentence tells more
    shell.set_custom_exc((Exception, KeyboardInterrupt), _answer)


def _answer(shell: Any, kind: type[BaseException], error: Any, trace: Any, **_: Any) -> None:
    """Show the error by its sentence; a HemError brings its own."""
    sys.last_type, sys.last_value, sys.last_traceback = kind, error, trace  # for %tb
    known = [name for name in shell.user_ns if not name.startswith("_")]
    own = getattr(error, "_render_traceback_", lambda: [sentence(error, known)])
    shell._showtraceback(kind, error, own())


def sentence(error: BaseException, known: list[str]) -> str:
    """What is said of an error, where these names are known.

    Examples
    --------
    >>> sentence(NameError("name 'Lenght' is not defined", name="Lenght"), ["Length", "judge"])
    "'Lenght' isn't known here: did you mean Length? If the page has it so, ..."
    >>> try: compile("Length(3/8 in)", "cell", "exec")
    ... except SyntaxError as error: sentence(error, [])
    'A size is a text, and stands in straight quotes: write "3/8 in" in place of 3/8 in.'
    """
    if isinstance(error, SyntaxError):
        return _unreadable(error)
    if isinstance(error, NameError):
        return _unknown(error.name or "", known)
    if isinstance(error, KeyboardInterrupt):
        return "Stopped. To begin again, run the cell once more."
    words = shown(str(error)) if str(error) else "no more is said"
    return (
        f"The cell can't be done as it stands ({type(error).__name__}: {words}). If you changed it, undo "
        f"that with Ctrl + Z; else {_FROM_THE_TOP}."
    )


def _unknown(name: str, known: list[str]) -> str:
    if name in ("inch", "inches", "cm", "mm", "yd", "m", "threads"):
        return f'A size is a text, and stands in straight quotes with its unit, such as "1 {name}".'
    near = difflib.get_close_matches(name, known, 1, 0.75)
    if near:
        # As like as these are stitch and hem_stitch, of which a page may have made but one so far.
        return (
            f"{shown(name)} isn't known here: did you mean {near[0]}? If the page has it so, a cell "
            f"further up makes it: {_FROM_THE_TOP}."
        )
    return (
        f"{shown(name)} isn't known yet: a cell further up makes it, and was not run since the page was "
        f"opened or its kernel restarted; {_FROM_THE_TOP}. Or, if it is meant as a text, put it in straight "
        'quotes, such as "cm".'
    )


def _unreadable(error: SyntaxError) -> str:
    line = (error.text or "").strip()
    if curly := _CURLY.search(line):
        return (
            f"The quotes in this line are curly ({curly[0]}), and Python reads straight ones only: type "
            f'them anew on the keyboard, such as "3/8 in".'
        )
    bare = _QUOTED.sub("", line.partition("#")[0])
    if size := _ON_PAPER.search(bare):
        number, unit = size[1].strip(), "in" if size[2] == '"' else size[2]
        if unit == "threads":
            return f"A number of threads stands alone: write {number} in place of {size[0]}."
        return (
            f'A size is a text, and stands in straight quotes: write "{number} {unit}" in place of {size[0]}.'
        )
    if name := re.search(r"(\w+)\s*=\s*$", bare):
        return f"Nothing stands after the = sign; write your answer there, or: {name[1]} = None"
    if "unexpected indent" in error.msg:
        return f"The line {shown(line)} begins with spaces that don't belong there; take them away."
    if "unterminated" in error.msg or "never closed" in error.msg or "incomplete" in error.msg:
        return f'In the line {shown(line)} a quote or a bracket is opened and not closed; close it: " or ).'
    return (
        f"Python can't read the line {shown(line)}. If you changed it, undo that with Ctrl + Z; a text "
        'stands in straight quotes, such as "3/8 in", and a number stands alone, such as 12.'
    )
