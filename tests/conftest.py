"""For all tests: a law must hold however busy the machine is."""

from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
