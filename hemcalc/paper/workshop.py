"""Everything a workshop needs from the printer: one file for the class, and one for each learner if asked."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from hemcalc.bolt.layout import Layout
from hemcalc.measure.errors import HemError, of_type, shown, true_or_false
from hemcalc.measure.files import file_name
from hemcalc.paper.cutting import cutting_list
from hemcalc.paper.flow import Flow
from hemcalc.paper.gauge import set_gauges
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.leaflet import Leaflet, bind
from hemcalc.paper.mitre import set_mitre
from hemcalc.paper.printer import paper_size
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.workshop.cutting import cut_for_class
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.workshop import Workshop

_ONE_SIDE = "Print this page on one side of the paper only: what is on its back is cut apart."


def kit_cards(kit: Kit, *, unit: str | None = None, paper: str = "A4", note: str = "") -> Leaflet:
    """The hem gauge and the paper mitre of a kit's piece, together on a page if they fit.

    Words are in ``"in"``, ``"cm"`` or ``"mm"``, the paper is ``"A4"`` or ``"Letter"``; a note stands at the
    foot. Marks and lines are exact.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kit_cards(example_workshop().kits[0])
    Leaflet('Cards: bread cloth', 1 page)
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    unit = kit.piece.fabric.warp.unit_or(unit)
    title = f"Cards: {kit.kind}"
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(f"{title}, {kit.learner}")
    flow.paragraph(_ONE_SIDE, bold=True)
    flow.cautions("blade")
    flow.heading("Hem gauge")
    marks = set_gauges(flow, kit, unit)
    mitre = set_mitre(flow, kit, unit, head="Paper mitre")
    for page in flow.pages:
        page.one_sided = True
    return flow.leaflet(title, f"Gauge at true size, from the open line: {', '.join(marks)}. Mitre: {mitre}")


_CLASS = "whole_class.pdf"
#: The leaflets that are the leader's own.
_LEADERS = ("leader_key.pdf", "shopping_list.pdf", "cutting_list.pdf", "kit_labels.pdf")


def kit_pages(kit: Kit, *, unit: str | None = None, paper: str = "A4", note: str = "") -> Leaflet:
    """What lies beside the work: the learner's sheet, and behind it her cards, to be cut out.

    All else is as for `learner_sheet`.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kit_pages(example_workshop().kits[0])
    Leaflet('Ada: bread cloth', 6 pages)
    """
    pages = (
        learner_sheet(kit, unit=unit, paper=paper, note=note),
        kit_cards(kit, unit=unit, paper=paper, note=note),
    )
    return bind(f"{kit.learner}: {kit.kind}", pages)


def workshop_pages(
    workshop: Workshop, layouts: Mapping[str, Layout] | None = None, *, paper: str = "A4"
) -> dict[str, Leaflet]:
    """Everything a workshop needs on paper, in the order in which it is printed, by names for files.

    The leader's key, shopping list, cutting list and kit labels, and for each kit, spares
    too, the learner's sheet with her cards, hem gauge and paper mitre, behind it.

    The layouts are as `cut_for_class` makes them, if they are left out. The paper is ``"A4"`` or
    ``"Letter"``. Refused if a page has no room for what stands on it.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from hemcalc.workshop.example import example_workshop
    >>> class_of_one = replace(example_workshop(), kits=example_workshop().kits[:1], spares=())
    >>> list(workshop_pages(class_of_one))
    ['leader_key.pdf', 'shopping_list.pdf', 'cutting_list.pdf', 'kit_labels.pdf', 'kit_01_Ada.pdf']
    """
    plan = cut_for_class(workshop) if layouts is None else layouts
    cut = cutting_list(workshop, plan, paper=paper)
    known = workshop.with_lengths(plan)
    kits = {
        name: kit_pages(kit, unit=workshop.unit, paper=paper, note=workshop.note)
        for name, kit in _files_of_kits(workshop).items()
    }
    leaders = (leader_key(known, paper=paper), shopping_list(known, paper=paper), cut)
    return dict(zip(_LEADERS, (*leaders, kit_labels(known, paper=paper)), strict=True)) | kits


def print_workshop(
    folder: str | os.PathLike[str],
    workshop: Workshop,
    layouts: Mapping[str, Layout] | None = None,
    *,
    paper: str = "A4",
    learners: bool = False,
    replace: bool = False,
    greys: bool = False,
) -> tuple[Path, ...]:
    """Save everything a workshop needs on paper as one PDF in a folder, made if it is not there.

    The leader's own pages come first, then each learner's sheet, then every learner's cards; on a screen, a
    list beside the pages leads to each. Cards are printed on one side of the paper, for they are cut out; all
    else may be printed on both. All pages are made before the first is written, so that what can't be printed
    leaves the folder as it was. The class's file comes first, then the learners' in the order of
    `workshop_pages`. Refused as `workshop_pages`; or if one of the files is there already and `replace` is
    not True, or the folder can't be made.

    Parameters
    ----------
    folder : str or Path
        Where the files go; the folder above it must be there.
    workshop, layouts, paper
        As for `workshop_pages`.
    learners : bool
        Whether each learner's pages are to be a file of their own as well.
    replace : bool
        Whether files of these names that are there already may be written over.
    greys : bool
        Whether they are printed in greys.

    Examples
    --------
    >>> import tempfile
    >>> from dataclasses import replace
    >>> from hemcalc.workshop.example import example_workshop
    >>> class_of_one = replace(example_workshop(), kits=example_workshop().kits[:1], spares=())
    >>> with tempfile.TemporaryDirectory() as desk:
    ...     files = print_workshop(desk + "/autumn", class_of_one, paper="Letter", learners=True)
    >>> [file.name for file in files]
    ['whole_class.pdf', 'kit_01_Ada.pdf']
    """
    true_or_false(learners, "learners")
    true_or_false(replace, "replace")
    place = Path(file_name(folder))
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    hers = list(_files_of_kits(workshop)) if learners else []
    if not replace:  # seen before all the pages are made, which takes a while
        _refuse_what_is_there(place, [_CLASS, *hers])
    with _made(place):  # before the pages too
        pages = workshop_pages(workshop, layouts, paper=paper)
        whole = bind(workshop.title, list(pages.values()))
        # What is cut apart comes last, so that the rest can be printed on both sides of the paper.
        whole = Leaflet(whole.title, sorted(whole.pages, key=lambda page: page.one_sided))
        files = {_CLASS: whole} | {name: pages[name] for name in hers}
        for leaflet in files.values():
            leaflet.pdf(greys=greys)
    return tuple(leaflet.save(place / name, replace=replace, greys=greys) for name, leaflet in files.items())


def _files_of_kits(workshop: Workshop) -> dict[str, Kit]:
    """The kits, each by the name of its file."""
    return {
        f"kit_{number:02}_{_plain(kit.learner)}.pdf": kit for number, kit in enumerate(workshop.every_kit, 1)
    }


def _plain(name: str) -> str:
    """A name as part of a file's name, on any system: letters, digits, - and _ only."""
    return re.sub(r"[^\w-]+", "_", name).strip("_")[:30] or "learner"


def _refuse_what_is_there(folder: Path, names: list[str]) -> None:
    there = [name for name in names if os.path.lexists(folder / name)]
    if there:
        more = f" and {len(there) - 1} more of these pages" if len(there) > 1 else ""
        raise HemError(
            f"The folder {shown(folder.name)} has {shown(there[0])}{more} in it already, and nothing is "
            "written over unasked; choose another folder, for example 'autumn workshop 2', or say "
            "replace=True to replace them.",
            "folder",
        )


@contextmanager
def _made(folder: Path) -> Iterator[None]:
    """A folder for what is made meanwhile; if that fails, a new one goes again."""
    new = not os.path.lexists(folder)
    try:
        folder.mkdir(exist_ok=True)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or type(error).__name__
        raise HemError(
            f"The folder {shown(folder.name)} can't be made ({reason}); choose a name in a folder that is "
            "there, for example 'autumn workshop'.",
            "folder",
        ) from None
    try:
        yield
    except BaseException:
        if new:
            with suppress(OSError):
                folder.rmdir()
        raise
