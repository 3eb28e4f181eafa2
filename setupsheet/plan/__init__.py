"""What is done, in which order, with what, from where: the plan of work."""
