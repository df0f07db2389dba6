"""What holds for every test: a property is true or not, however busy the machine is."""

from hypothesis import settings

from bellcrank.bootstrap import keep_compiled

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
keep_compiled()
