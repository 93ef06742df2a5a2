"""How tests run: searching for new examples, without deadlines, as machines are busy at times.

`--hypothesis-profile repeatable` tries the same examples every time, where a failure must be repeatable.
"""

from hypothesis import settings

settings.register_profile("searching", deadline=None)
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("searching")
