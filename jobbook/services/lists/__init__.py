"""Lists of customers, vehicles and parts, taken in from files and written to files."""
