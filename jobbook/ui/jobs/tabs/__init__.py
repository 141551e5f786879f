"""The tabs of the job page beside Work, each a module that shows and keeps its part of the job."""
