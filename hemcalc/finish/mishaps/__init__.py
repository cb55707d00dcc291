"""What to do when it goes wrong: each accident with its sign, its cost, its steps and its limit."""
