"""Small faults put into the planner one by one, to see which of them no test notices. Run by hand only."""
