"""The measuring mistakes that explain an unlikely dog: one file a reason, with its prior and its transformation."""
