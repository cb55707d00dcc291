"""What is only run as a command, with the extra `mutation`, is not looked through for doctests."""

collect_ignore = ["changes.py", "mutation.py"]
