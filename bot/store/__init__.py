"""Everything that is SQL."""
