"""The demonstration book, built from sample_db through the services, as people would have done it."""

from jobbook.services.demonstration.building import Built, build
from jobbook.services.demonstration.played import MovedClock

__all__ = ["Built", "MovedClock", "build"]
