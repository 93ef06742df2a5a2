"""The page beside two stiff pieces of one length: both are shown, each by its own name, with its own thickness."""

import json
import re

from streamlit.testing.v1 import AppTest


def _both_ports() -> None:
    from planner import plan_job
    from tests.planner.documents.two_stiff_pieces import make_two_piece_job
    from ui.page.views.hole_view import show_port

    job, workshop = make_two_piece_job()
    plan = plan_job(job=job, workshop=workshop)
    for port_id in ("in", "out"):
        show_port(job.frame.ports[port_id], plan, place=port_id)


def test_every_picture_has_a_place_of_its_own_and_each_piece_its_thickness() -> None:
    page = AppTest.from_function(_both_ports, default_timeout=60).run()
    assert not page.exception
    told = " ".join(json.loads(one.proto.json)["wide"] for one in page.get("bidi_component"))
    assert sorted(re.findall(r"21\.0 mm long, (\d+\.\d+) mm thick", told)) == ["12.50", "12.50", "12.90", "12.90"]
    assert [tab.label for tab in page.tabs].count("Stiff piece, fitting") == 2
    lines = " ".join(str(one.value) for one in page.markdown)
    assert "a stiff piece 21 mm long passes" in lines
    assert "the fitting on the leading end, stiff over 21 mm, passes" in lines
