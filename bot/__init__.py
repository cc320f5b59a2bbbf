"""Everything that touches the world: channels, store, settings, commands."""

__version__ = "0.1.0"
