"""The command line: arguments in, findings and files out; the only stage that prints, writes and exits."""
