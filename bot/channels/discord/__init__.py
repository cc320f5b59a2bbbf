"""Discord: customers by direct message and in channels, and the maker's side in a private channel."""
