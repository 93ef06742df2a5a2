"""How tests run: searching for new examples at home, the same ones every time where a failure must be repeatable."""

import os

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True, deadline=None)
if os.environ.get("CI"):
    settings.load_profile("repeatable")
