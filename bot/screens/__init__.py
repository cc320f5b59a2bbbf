"""What the maker sees at a terminal. Every word that a stranger wrote passes through `inert` first."""
