"""Settings of every test: no property fails because the machine was slow for a moment."""

from hypothesis import settings

settings.register_profile("hemcalc", parent=settings(), deadline=None)
settings.load_profile("hemcalc")
