"""For all tests: helper modules beside this file can be imported, and properties run alike every time."""

from hypothesis import settings

# No deadline: the first example loads lexicons. The same examples everywhere: a red run can be repeated.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
