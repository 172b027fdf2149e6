"""A frame in words: its sticks and their holes, what holds them, what it takes; as tables and as a JSON document."""
