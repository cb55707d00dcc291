"""The form in which a learner checks her sums: marked as she goes, with hints that lead first."""

from __future__ import annotations

import html
from collections.abc import Callable, Sequence

import ipywidgets as widgets

from hemcalc.draw.look import type_size
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.sums.answer_ruler import AnswerRuler, answer_alt
from hemcalc.measure.errors import HemError, of_type, one_of, several
from hemcalc.panels.fields import form
from hemcalc.panels.page import OnPage
from hemcalc.piece.examples import EXAMPLES
from hemcalc.sums.checking import Mark, Report
from hemcalc.sums.exercises import Asked, Exercise, from_example
from hemcalc.sums.facts import LEDGER
from hemcalc.sums.verdict import BLANK, FOLLOWS, NEAR, RIGHT, ROUNDED, UNREAD, WRONG

_GOOD, _BAD, _QUIET = "#1b4d1b", "#7a1f00", "#444"
_HINTS = ("Hint", "Another hint", "The line", "Tell me")
_MARKS = {RIGHT: "✓ ", ROUNDED: "✓ ", NEAR: "≈ ", FOLLOWS: "→ ", WRONG: "✗ ", UNREAD: "? ", BLANK: ""}
_WITH_BANDS = ("cut", "total")  # numbers that may be written as their bands


class Field:
    """One number of the form: a box to write in, a button for hints, and what is said of it.

    A number that is the whole ledger has a row of bands over its box, for her working: what is added
    up is seen then, and need not be guessed.
    """

    def __init__(self) -> None:
        self.asked = Asked("total")
        self.mark: Mark | None = None
        self.hints_shown = 0
        self.box = widgets.Text(
            continuous_update=False,
            style={"description_width": "130px"},
            layout=widgets.Layout(width="260px"),
        )
        self.button = widgets.Button(
            description=_HINTS[0], layout=widgets.Layout(width="calc(8.5 * var(--hemcalc-type, 13px))")
        )
        self.button.on_click(lambda _: self.lead())
        self.beside = widgets.HTML(
            layout=widgets.Layout(flex="1 1 300px", max_width="540px", min_height="34px")
        )
        self.bands = {
            band: widgets.Text(
                description=band,
                continuous_update=False,
                style={"description_width": "50px"},
                layout=widgets.Layout(width="108px"),
            )
            for band in LEDGER
        }
        self._working = widgets.HBox(
            [widgets.HTML('<span style="margin-left:60px">its bands</span>'), *self.bands.values()]
        )
        self.row = widgets.VBox([self._working, widgets.HBox([self.box, self.button, self.beside])])

    @property
    def written(self) -> str:
        """What is written in the box; behind the bands that were added up, if some are filled in."""
        bands = [box.value for box in self.bands.values() if box.value.strip()]
        return (
            f"{' + '.join(bands)} = {self.box.value}" if bands and self.box.value.strip() else self.box.value
        )

    @property
    def kept(self) -> tuple[str, ...]:
        """All that is written, to be kept while another sum is shown."""
        return (self.box.value, *(box.value for box in self.bands.values()))

    @property
    def said(self) -> str:
        """What stands beside the box, as text."""
        return "\n".join(text for text, _ in self._lines())

    def ask(self, asked: Asked, kept: Sequence[str] = ()) -> None:
        """Ask for another number, with what was written for it before."""
        self.asked, self.mark, self.hints_shown = asked, None, 0
        self.box.description = asked.name
        self.box.placeholder = "a thread's number" if asked.name == "first drawn" else f"in {asked.unit}"
        boxes = (self.box, *self.bands.values())
        for box, value in zip(boxes, kept or ("",) * len(boxes), strict=True):
            box.value = value
        with_bands = asked.name in _WITH_BANDS and asked.unit == "threads"
        self._working.layout.display = "flex" if with_bands else "none"
        self._show()

    def say(self, mark: Mark) -> None:
        """Show the mark of what is written; a new answer starts the hints anew."""
        if self.mark is None or mark.entered != self.mark.entered:
            self.hints_shown = 0
        self.mark = mark
        self._show()

    def lead(self) -> None:
        """Show one hint more: a question, the step, the line with blanks; last the answer, if she has one."""
        self.hints_shown = min(self.hints_shown + 1, self._most)
        self._show()

    @property
    def _most(self) -> int:
        """How many hints there are: the answer is not told before she has written one."""
        return len(_HINTS) - (self.mark is None or self.mark.verdict in (BLANK, UNREAD))

    def _lines(self) -> list[tuple[str, str]]:
        """What is said, each with its colour."""
        mark = self.mark
        if mark is None or mark.verdict == BLANK:
            lines = [(self.asked.where, _QUIET)]
        else:
            colour = _GOOD if mark.right else _QUIET if mark.verdict in (FOLLOWS, NEAR) else _BAD
            lines = [(_MARKS[mark.verdict] + mark.nudge, colour)]
        if mark is not None and not mark.right:
            lines += [(hint, _QUIET) for hint in mark.hints[: self.hints_shown]]
        return lines

    def _show(self) -> None:
        over = self.mark is not None and self.mark.right
        self.button.disabled = over or self.hints_shown >= self._most
        self.button.description = _HINTS[min(self.hints_shown, len(_HINTS) - 1)]
        text = "".join(
            f'<div style="color:{colour};font-weight:{"normal" if colour == _QUIET else "bold"}">'
            f"{html.escape(line)}</div>"
            for line, colour in self._lines()
        )
        self.beside.value = f'<div role="status" style="padding-top:.5em">{text}</div>'


class CheckForm(OnPage):
    """A sum, a field for each of its numbers, and a picture of both ledgers once it is asked for."""

    def __init__(self, exercises: Sequence[Exercise]) -> None:
        self.exercises = {sums.title: sums for sums in exercises}
        self.report: Report | None = None
        #: What is told of each report, such as that of a sum that is practised.
        self.on_report: Callable[[Report], None] = lambda report: None
        self.menu = widgets.Dropdown(
            options=list(self.exercises), description="sum", layout=widgets.Layout(width="300px")
        )
        self.clear = widgets.Button(description="Begin again", layout=widgets.Layout(width="140px"))
        self.show = widgets.ToggleButton(
            description="Show both ledgers", layout=widgets.Layout(width="180px")
        )
        self.text = widgets.HTML(layout=widgets.Layout(max_width="calc(69 * var(--hemcalc-type, 13px))"))
        self.summary = widgets.HTML()
        self.picture = widgets.HTML(layout=widgets.Layout(max_width="900px", display="none"))
        most = max(len(sums.asked) for sums in exercises)
        self._fields = [Field() for _ in range(most)]
        self._holding = False
        self._kept: dict[str, list[tuple[str, ...]]] = {}
        self._title = ""
        self._sheet = Sheet(9, 3.2, size=type_size("page"))
        self._ruler = AnswerRuler(self._sheet, (0.01, 0.02, 0.98, 0.96))
        for field in self._fields:
            for box in (field.box, *field.bands.values()):
                box.observe(lambda _: self._changed(), "value")
        self.menu.observe(lambda change: self.choose(change["new"]), "value")
        self.clear.on_click(lambda _: self.begin_again())
        self.show.observe(lambda _: self._draw(), "value")
        self.top = widgets.HBox([self.menu, self.clear, self.show])
        rows = [field.row for field in self._fields]
        self.widget = form([self.top, self.text, *rows, self.summary, self.picture])
        self.choose(self.menu.value)

    @property
    def exercise(self) -> Exercise:
        """The sum that is shown."""
        return self.exercises[self._title]

    @property
    def fields(self) -> dict[str, Field]:
        """The fields in use, by the name of their number."""
        asked = self.exercises[self._title].asked
        return {field.asked.name: field for field in self._fields[: len(asked)]}

    def choose(self, title: str) -> None:
        """Show a sum, with what was written for it before."""
        if self._holding:
            return
        title = one_of(title, tuple(self.exercises), "title")
        if self._title:
            self._kept[self._title] = [field.kept for field in self.fields.values()]
        self._ask(title)

    def show_sum(self, sums: Exercise) -> None:
        """Show this sum in place of those that could be chosen; it may ask for no more numbers than they."""
        if len(of_type(sums, Exercise, "sums", "exercise(7)").asked) > (most := len(self._fields)):
            raise HemError(
                f"The sum asks for {len(sums.asked)} numbers, but this form has room for {most}; "
                "for example check_panel(exercise(7)) makes one for any sum.",
                "sums",
            )
        self._holding = True
        self.exercises, self._kept, self._title = {sums.title: sums}, {}, sums.title
        self.menu.options = [sums.title]
        self._ask(sums.title)

    def begin_again(self) -> None:
        """Empty this sum's boxes."""
        self._kept.pop(self._title, None)
        self._ask(self._title)

    def _ask(self, title: str) -> None:
        self._holding = True
        self._title = self.menu.value = title
        asked, kept = self.exercise.asked, self._kept.get(title, [])
        for i, field in enumerate(self._fields):
            field.row.layout.display = "flex" if i < len(asked) else "none"
            if i < len(asked):
                field.ask(asked[i], kept[i] if kept else ())
        self.show.value = False
        self._holding = False
        self.text.value = f'<p style="line-height:1.4">{html.escape(self.exercise.text())}</p>'
        self._changed()

    def _changed(self) -> None:
        if self._holding:
            return
        self.report = self.exercise.check({name: field.written for name, field in self.fields.items()})
        for mark in self.report:
            self.fields[mark.name].say(mark)
        # The right ledger is not to be read off before every number is written.
        self.show.disabled = any(mark.verdict in (BLANK, UNREAD) for mark in self.report)
        if self.show.disabled:
            self.show.value = False
        self.on_report(self.report)
        self.summary.value = f'<b role="status">{html.escape(self.report.summary)}</b>'
        self._draw()

    def _draw(self) -> None:
        self.picture.layout.display = "flex" if self.show.value else "none"
        if self.show.value and self.report is not None:
            self._ruler.update(self.report)
            self.picture.value = self._sheet.html(answer_alt(self.report))

    def in_words(self) -> str:
        """Its sum."""
        return str(self.exercise)

    def in_html(self) -> str:
        """Its sum, a paragraph for each line."""
        return "".join(f"<p>{html.escape(line)}</p>" for line in self.in_words().splitlines())


def check_panel(*exercises: Exercise | Sequence[Exercise]) -> CheckForm:
    """The form in which sums are checked, ready to be shown in a notebook.

    There are these sums to choose from, or the pieces of the workshop if none is given.

    Examples
    --------
    >>> form = check_panel()
    >>> form.fields["cut"].box.value = "26"
    >>> form.fields["cut"].said
    '✗ Not yet: 26 threads is too little.'
    >>> form.fields["cut"].lead()
    >>> form.fields["cut"].said.splitlines()[1]
    'How often does the hem lie between the open line and the turn?'
    >>> form.fields["cut"].bands["clear"].value = "7"
    >>> form.fields["cut"].written
    '7 = 26'
    """
    asked: list[Exercise] = []
    for each in exercises:
        listed = isinstance(each, list | tuple)
        for sums in several(each, "exercises", "exercises", "[exercise(7)]") if listed else (each,):
            asked.append(of_type(sums, Exercise, "exercises", "exercise(7)"))
    return CheckForm(asked or [from_example(name) for name in EXAMPLES])
