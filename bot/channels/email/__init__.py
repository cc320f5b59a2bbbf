"""E-mail: customers over IMAP and SMTP, and the maker's side by answers to the drafts that she is mailed."""
