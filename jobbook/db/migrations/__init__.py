"""Every change of the book's tables, from the first. Views and triggers hold nothing and are made anew each time."""
