"""Telegram: customers in private chats and business accounts, and the maker's side in her own chat with the bot."""
