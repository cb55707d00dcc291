"""Practice with progress: the sum that is due, marked, and kept in a file of the learner's own.

What she writes first counts. Nothing is written to a file until she asks for it; then each sum is
added to it.
"""

from __future__ import annotations

import html

import ipywidgets as widgets

from hemcalc.course.mixing import next_of, with_answers
from hemcalc.course.tasks import Task
from hemcalc.measure.errors import HemError, of_type
from hemcalc.panels.check import CheckForm
from hemcalc.panels.fields import form
from hemcalc.panels.page import OnPage, said_html
from hemcalc.sums.checking import Report
from hemcalc.sums.exercises import Exercise, exercise
from hemcalc.sums.progress import Progress, load_progress
from hemcalc.sums.verdict import BLANK, UNREAD

_LAST = 5  # sums of her file that are shown
_HINTS = ("Hint", "The line", "Tell me")


class Practice(OnPage):
    """The next sum, a box or a form for it, and the file that it is kept in."""

    def __init__(self, path: str) -> None:
        self.progress = Progress()
        self.first: object = None
        self._keeping, self._hints = False, 0
        self.path = widgets.Text(
            value=path, description="my file", continuous_update=False, layout=widgets.Layout(width="320px")
        )
        narrow = widgets.Layout(width="120px")
        self.open = widgets.Button(description="Open it", layout=narrow)
        self.keep = widgets.Button(description="Keep it", layout=narrow)
        self.following = widgets.Button(description="Next sum", layout=narrow)
        self.hint = widgets.Button(description=_HINTS[0], layout=narrow)
        self.box = widgets.Text(
            description="my answer", continuous_update=False, layout=widgets.Layout(width="320px")
        )
        self._text, self._marked = widgets.HTML(layout=widgets.Layout(max_width="900px")), widgets.HTML()
        self._file, self._done = widgets.HTML(), widgets.HTML()
        self._short = widgets.VBox([self._text, widgets.HBox([self.box, self.hint])])
        self.form = CheckForm([exercise(1, 3)])
        self.form.on_report = self._reported
        self.form.top.layout.display = "none"
        self.widget = form(
            [
                widgets.HBox([self.path, self.open, self.keep]),
                self._file,
                self._short,
                self.form.widget,
                self._marked,
                self.following,
                self._done,
            ]
        )
        self.open.on_click(lambda _: self.read())
        self.keep.on_click(lambda _: self.write())
        self.following.on_click(lambda _: self.go_on())
        self.hint.on_click(lambda _: self.lead())
        self.box.observe(lambda _: self._written(), "value")
        self.said = ""
        self._say_file("Nothing is kept until you press Keep it.")
        self._ask()

    def read(self) -> None:
        """Go on from what her file says."""
        try:
            self.progress = load_progress(self.path.value)
        except HemError as error:
            self._say_file(str(error))
            return
        self._keeping = True
        self._say_file(f"Read {self.path.value}; each sum from now on is added to it.")
        self._ask()

    def write(self) -> None:
        """Add what was done to her file, and each sum from now on."""
        try:
            self.progress.save(self.path.value)
        except HemError as error:
            self._say_file(str(error))
            return
        self._keeping = True
        self._say_file(f"Kept in {self.path.value}; each sum from now on is added to it.")

    def go_on(self) -> None:
        """Count what was written first, and show the next sum."""
        if self.first is None:
            self._mark("Write every number first; what you write first counts.")
            return
        self.progress = with_answers(self.progress, self.sums, self.first)
        if self._keeping:
            self.write()
        self._ask()

    def lead(self) -> None:
        """Show one hint more: a question, the line with blanks; the answer only after she has written one."""
        if isinstance(self.sums, Task):
            most = len(_HINTS) if self.first is not None else len(_HINTS) - 1
            self._hints = min(self._hints + 1, most)
            self._written()

    def _ask(self) -> None:
        self.sums: Exercise | Task = next_of(self.progress)
        self.first, self._hints = None, 0
        self._mark("")
        short = isinstance(self.sums, Task)
        self._short.layout.display = "flex" if short else "none"
        self.form.widget.layout.display = "none" if short else "flex"
        if isinstance(self.sums, Task):
            said = f"<b>{html.escape(self.sums.title)}.</b> {html.escape(self.sums.text())}"
            self._text.value = f'<p style="line-height:1.4">{said}</p>'
            self.box.value, self.box.placeholder = "", f"in {self.sums.of}"
        else:
            self.form.show_sum(self.sums)
        lines = self.progress.text().splitlines()[1:][-_LAST:]
        whole = sum(each.whole for each in self.progress.done)
        counted = f"{len(self.progress.done)} sums done, {whole} of them all right."
        told = "<br>".join(html.escape(line) for line in (counted, *lines))
        self._done.value = f'<div style="line-height:1.4">{told}</div>'

    def _written(self) -> None:
        if not isinstance(self.sums, Task):
            return
        answer, lines = self.box.value.strip(), []
        if answer:
            verdict = self.sums.check(answer)
            if verdict.right is not None and self.first is None:
                self.first = answer
            lines.append(verdict.text())
        blank = self.sums.line(99)
        lines += [self.sums.question, blank, f"It is {self.sums.line()}."][: self._hints]
        self.hint.description = _HINTS[min(self._hints, len(_HINTS) - 1)]
        self._mark("\n".join(lines))

    def _reported(self, report: Report) -> None:
        if self.first is None and not any(mark.verdict in (BLANK, UNREAD) for mark in report):
            self.first = report

    def _mark(self, text: str) -> None:
        self.said = text
        self._marked.value = said_html(text)

    def _say_file(self, text: str) -> None:
        self.told = text
        self._file.value = said_html(text)

    def in_words(self) -> str:
        """Its sum."""
        return f"{self.sums.title}. {self.sums.text()}"


def practice_panel(path: str = "my_sums.txt") -> Practice:
    """Sums to practise on, topics mixed, with the learner's own file of what she has done.

    Her file is read when she opens it, and written when she asks for that.

    Examples
    --------
    >>> panel = practice_panel()
    >>> panel.sums.title, panel.progress
    ('Sum 1, level 1', Progress(0 sums, 0 all right))
    """
    return Practice(of_type(path, str, "path", "'my_sums.txt'"))
