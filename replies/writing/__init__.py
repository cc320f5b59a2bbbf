"""From an assessment to a draft."""
