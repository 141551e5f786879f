"""The tabs beside Work, by the key that they have on the job's sheet."""

from collections.abc import Mapping
from types import MappingProxyType

from jobbook.ui.jobs.tabs import arrival, checks, diagnosis, papers, parts, permission
from jobbook.ui.jobs.tabs.records import TabOfJob

TABS: Mapping[str, TabOfJob] = MappingProxyType(
    {
        "arrival": arrival,
        "diagnosis": diagnosis,
        "permission": permission,
        "parts": parts,
        "checks": checks,
        "papers": papers,
    }
)
