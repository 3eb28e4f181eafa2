"""Commands: arguments in, findings and files out. The only place that prints or exits."""
