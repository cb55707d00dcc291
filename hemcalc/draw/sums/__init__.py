"""Figures of a learner's answers, and of what the books allow."""
