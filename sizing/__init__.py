"""The sizing engine: judges a dog's measures and says what serves it."""
