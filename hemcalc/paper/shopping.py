"""The shopping list: what to buy, in the shop's units, what it costs, and what is cut from each linen."""

from __future__ import annotations

from hemcalc.measure.errors import of_type
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import so_many
from hemcalc.paper.flow import Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.money import money_text
from hemcalc.workshop.offers import WhereToBuy
from hemcalc.workshop.workshop import Workshop


def shopping_list(workshop: Workshop, asked: WhereToBuy | None = None, *, paper: str = "A4") -> Leaflet:
    """The shopping list of a workshop.

    What each shop asks, as from `where_to_buy`, is set out behind the list. The paper is ``"A4"`` or
    ``"Letter"``.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> shopping_list(example_workshop())
    Leaflet('Shopping list: Autumn linen workshop', 1 page)
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    title = f"Shopping list: {workshop.title}"
    unit, currency = workshop.unit, workshop.currency
    flow = Flow(paper_size(paper), title, workshop.note)
    flow.title_line(title, beside="date: ______________")
    cost = f"cost, {currency}" if currency else "cost"
    # Where no shop is named there is no column for it.
    shops = any(line.goods.shop for line in workshop.shopping)
    rows = [["", "goods", "needed", "buy", "price", cost, "where"]]
    for line in workshop.shopping:
        goods, price = line.goods, money_text(line.goods.price)
        told = [line.need_text, line.text(), price, money_text(line.cost)]
        rows.append(["☐", goods.name, *told, goods.shop])
    widths = (0.3, 3, 1.8, 2.4, 1, 1.6, 1.8)
    flow.table([row[: 6 + shops] for row in rows], widths[: 6 + shops], figures=(4, 5))
    flow.paragraph(f"In all: {workshop.cost_text}.", bold=True)
    learners = len(workshop.learners)
    each = money_text(workshop.cost_each, currency)
    so_far = " so far" if workshop.unpriced else ""
    flow.paragraph(f"For each of {so_many(learners, 'learner')}, rounded up{so_far}: {each}.")
    flow.paragraph("Each need is rounded up to the shop's unit. Spares are counted in.")
    flow.heading("Each linen: when it is washed, what is allowed for, and what is cut from it")
    for linen in workshop.linens:
        pieces = workshop.pieces_of(linen)
        if pieces:
            said = "; ".join(size.text(unit) for size in pieces)
            none = workshop.lengths.get(linen.name) == Length(0)
            cupboard = "All of it comes from the cupboard: nothing is bought. " if none else ""
            words = f"{cupboard}{linen.wash_text} {linen.allow.text(unit)} To be cut: {said}."
            flow.paragraph(f"{linen.name}, {linen.width.text(unit)} usable in the shop. {words}")
    if asked is not None:
        of_type(asked, WhereToBuy, "asked", "where_to_buy(workshop)")
        flow.heading("What each shop asks, the cheapest of each linen first")
        offered = [
            ["linen", "shop", "width", "buy", cost, "left over", "slack", "would serve"],
            *asked.rows(),
        ]
        flow.table(offered, (2.6, 1.7, 1.3, 1.3, 1.2, 1, 1.2, 2.4), figures=(4, 5))
        for said in asked.text(unit).splitlines()[len(asked.best) :]:
            flow.paragraph(said)
        for rest in asked.cutting.rests:
            flow.paragraph(f"{rest.rest.linen}: {rest.text(unit)}")
    flow.cautions("blade")
    return flow.leaflet(title, f"{len(workshop.shopping)} lines, in all {workshop.cost_text}.")
