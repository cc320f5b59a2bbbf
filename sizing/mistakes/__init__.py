"""The measuring mistakes that explain a dog which cannot be: one file for each reason, its prior and its transformation."""
