"""How hypothesis searches: the same examples each time, unless a wider search is asked for.

`python -m pytest --hypothesis-profile=search` tries many more examples, new ones each time.
"""

from hypothesis import settings

# No deadline: a busy machine is no fault of the code. No database: the checkout may be read-only.
settings.register_profile("steady", deadline=None, database=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, database=None, max_examples=1000)
settings.load_profile("steady")
