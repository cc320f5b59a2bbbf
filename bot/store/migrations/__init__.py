"""The steps by which older stores become newer ones. A step is never edited once it has landed."""
