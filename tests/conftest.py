"""How tests run: searching for new examples, without deadlines, as machines are busy at times.

`--hypothesis-profile repeatable` tries the same examples every time, where a failure must be repeatable. What is kept
of catalogs goes into a folder of the tests' own, and with them, never into that of the person who runs them.
"""

import os
from tempfile import TemporaryDirectory

from hypothesis import settings

settings.register_profile("searching", deadline=None)
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("searching")

CACHES = TemporaryDirectory(prefix="lineplan-tests-")
os.environ["XDG_CACHE_HOME"] = CACHES.name
os.environ.pop("LINEPLAN_CACHE", None)
