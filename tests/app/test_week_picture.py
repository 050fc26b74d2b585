"""The picture of a shop's plan from the command line: the week as the window lays it."""

from desktop.week_scene import facts

from armorplan.app.plan_table import Told, week_table
from armorplan.app.week_picture import week_figure
from armorplan.sheets.week_marks import LoadMark
from armorplan.workshop.shop import one_maker


def test_it_has_the_lanes_and_hours_of_the_week_in_the_window():
    scene, shop = facts(), one_maker("Europe/Lisbon")
    plan, problem = scene.shown.plan, scene.problem
    told = Told(title="Harbour shop", sentence="It holds.", notes=("Nights are cold.",))
    table = week_table(problem, plan, shop, told)
    drawn = week_figure(table, plan, problem, shop, sure="Surely enough.")
    assert drawn.builds[0].startswith("A  Gorget, due Wed 6 May")
    assert drawn.builds[-1] == "Surely enough."
    assert drawn.title == "Harbour shop, by person"
    assert (drawn.sentence, drawn.nights) == ("It holds.", "Nights are cold.")
    assert drawn.lanes[0] == "Maker"
    assert drawn.zone == "Europe/Lisbon"
    assert any(isinstance(mark, LoadMark) for mark in drawn.marks)
    assert {bar.title for bar in drawn.bars} >= {"A: Cut the Gorget"}
