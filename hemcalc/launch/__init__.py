"""What the commands do: the checkout's own environment, the lab in it, and the tests in stages."""
