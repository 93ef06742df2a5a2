"""A job of several lines in the terminal: order and reason first, one work order, a no with what would change it."""

import json
from decimal import Decimal
from pathlib import Path

from tests.planner.documents.paper_reading import page_texts, text_of
from tests.ui.shop_samples import DAY, DEMO, done, flat, lineplan, refused

WIDE = tuple(word for name in ("wide", "narrow") for word in ("-c", DEMO / f"hardtail-{name}.frame.yaml"))


def told(*words: object) -> str:
    """What a command prints, in one line."""
    return flat(done(*words))


def test_order_and_reason_come_first_and_shared_steps_stand_once() -> None:
    text = told("plan", DEMO / "cockpit-swap.visit.yaml", *WIDE)
    assert text.index("Order") < text.index("Why this order") < text.index("Steps, all lines together")
    assert "lamp in before rear-brake: afterwards each diameter lacks 0.15 mm at Chainstay, inside." in text
    assert "rear-brake: new line in for the old one, by Threaded coupler 3.0, fed from Right lever" in text
    assert text.count("Hold it by the seat post, never by a tube.") == 1
    assert text.count("Wheel in, axle closed.") == 1
    assert "in eight of ten" in text


def test_with_all_each_line_is_told_in_full_and_why_each_step_is_done() -> None:
    short = told("plan", DEMO / "cockpit-swap.visit.yaml", *WIDE)
    whole = told("plan", DEMO / "cockpit-swap.visit.yaml", *WIDE, "--all")
    assert len(whole) > 2 * len(short)
    assert "This sheet knows sizes and clearances" in whole


def test_a_no_tells_who_and_where_and_what_would_change_it() -> None:
    run = lineplan("plan", DEMO / "cockpit-no-order.visit.yaml", *WIDE)
    text = flat(run.stdout)
    assert run.exit_code == 3
    assert (
        "lamp and rear-brake would ride together, but cannot be drawn in past each other at Chainstay, inside" in text
    )
    assert "each diameter lacks 0.10 mm" in text
    assert "With rear-brake taken out before the new line goes in there is an order" in text
    assert "With lamp led outside the frame there is an order." in text
    assert "Chainstay, inside would have to be 0.20 mm larger." in text
    assert "never made larger at the bench" in text
    assert "Steps" not in text


def test_taken_out_first_is_told_with_its_reason(tmp_path: Path) -> None:
    job = tmp_path / "out-first.yaml"
    text = (DEMO / "cockpit-no-order.visit.yaml").read_text(encoding="utf-8")
    job.write_text(text.replace("take_out_first: false", "take_out_first: true"), encoding="utf-8")
    said = told("plan", job, *WIDE)
    assert "rear-brake: old line out" in said
    assert "Old line of rear-brake out first: lamp and rear-brake would ride together" in said
    assert "Draw Brake hose 5.0 with bore 2.3 out of the frame" in said or "Draw the old line out of the frame." in said


def test_a_line_only_taken_out_has_its_work_and_no_plan(tmp_path: Path) -> None:
    job = tmp_path / "out.yaml"
    job.write_text(
        "format: 1\n"
        "job: {id: out, frame: dorrimel-120, lines: [{id: wire, from: bar-right, to: caliper-rear, new: none,\n"
        "  old: {line: wire-25, through: [shared-neck, bb-window, stay-exit]}}]}\n",
        encoding="utf-8",
    )
    said = told("plan", job, *WIDE)
    assert "wire: old line out" in said
    assert "Draw the old line out of the frame." in said
    assert "new line" not in said.split("Steps")[1]
    assert "nobody rides" not in said


def test_a_brake_only_taken_out_is_closed_again_and_not_ridden(tmp_path: Path) -> None:
    job = tmp_path / "out.yaml"
    job.write_text(
        "format: 1\n"
        "job: {id: out, frame: dorrimel-120, lines: [{id: brake, from: bar-right, to: caliper-rear, new: none,\n"
        "  old: {line: hose-50x23, through: [shared-neck, bb-window, stay-exit]}}]}\n",
        encoding="utf-8",
    )
    said = told("plan", job, *WIDE)
    steps = said.split("Steps")[1]
    assert "brake is only taken out: this brake does not work, and nobody rides" in said
    assert steps.index("Wheel out") < steps.index("Pads in that never met fluid") < steps.index("Wheel in")
    assert "ride, every function" not in steps
    assert "Lay the line" not in steps


def test_what_takes_one_line_only_refuses_several_in_a_sentence(tmp_path: Path) -> None:
    gauge = ("gauge", DEMO / "cockpit-swap.visit.yaml", "--pdf", tmp_path / "gauge.pdf")
    assert "several lines were given" in refused(*gauge, *WIDE)


def test_the_pictures_of_every_line_are_written(tmp_path: Path) -> None:
    done("plan", DEMO / "cockpit-swap.visit.yaml", *WIDE, "--pictures", tmp_path / "pictures")
    names = {path.name for path in (tmp_path / "pictures").iterdir()}
    assert all(any(name.startswith(f"cockpit-swap-{line}-") for name in names) for line in ("gear", "lamp"))
    assert {"cockpit-swap-shared-neck-strip.svg", "cockpit-swap-stay-run-strip.svg"} <= names
    assert "cockpit-swap-side-view.svg" in names


def test_the_card_has_the_order_the_holes_and_each_line_and_every_cut_line_its_label(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "labels.pdf"
    said = done("card", DEMO / "cockpit-swap.visit.yaml", *WIDE, "--pdf", card, "--label", label, *DAY)
    assert "Labels: " in said
    pages = page_texts(card.read_bytes())
    text = text_of(card.read_bytes())
    assert len(pages) <= 10
    assert max(page.count("Line Step min") for page in pages) == 1  # a row parted at the foot repeats the head there
    assert "Why: lamp in before rear-brake" in pages[0]
    assert "B before C, else 0.15 mm missing" in pages[0]
    assert "Who lies in the shared holes, step by step" in text
    assert text.index("Order") < text.index("Steps, all lines together") < text.rindex("A gear: Gear housing 4.0")
    assert text.count("Hold the bicycle in the stand by its seat post") == 1
    assert text.count("When it sticks") == 1
    assert len(page_texts(label.read_bytes())) == 2  # hose and housing are cut, wires are not


def test_the_card_of_a_no_says_why_and_has_no_steps(tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    run = lineplan("card", DEMO / "cockpit-no-order.visit.yaml", *WIDE, "--pdf", card, *DAY)
    assert run.exit_code == 3
    text = text_of(card.read_bytes())
    assert "cannot be drawn in past each other" in text
    assert "Steps" not in text


def test_the_quote_charges_every_line_and_the_shared_work_once(tmp_path: Path) -> None:
    pdf = tmp_path / "quote.pdf"
    record = json.loads(done("quote", DEMO / "cockpit-swap.visit.yaml", *WIDE, "--pdf", pdf, "--json", *DAY))
    kinds = [(line["kind"], line["id"]) for line in record["lines"]]
    assert [kind for kind, _ in kinds].count("labour") == 1
    assert {("line", "hose-55x25"), ("line", "gear-housing-40"), ("line", "wire-25")} <= set(kinds)
    planned = json.loads(done("plan", DEMO / "cockpit-swap.visit.yaml", *WIDE, "--json"))
    assert record["total"] == planned["totals"]["price"]
    (labour,) = (line for line in record["lines"] if line["kind"] == "labour")
    assert float(labour["quantity"]) == round(planned["totals"]["minutes"])
    things = sum(Decimal(line["total"]) for line in record["lines"])
    assert Decimal(record["subtotal"]) == things
    assert "Cockpit swap" in text_of(pdf.read_bytes())


def test_there_is_nothing_to_quote_where_no_order_works() -> None:
    run = lineplan("quote", DEMO / "cockpit-no-order.visit.yaml", *WIDE)
    assert run.exit_code == 3
    assert "Nothing to quote. No plan" in run.stdout
