"""Reads customers' messages and drafts the maker's replies."""
