"""The commands of the command line: each reads its arguments, calls a use case and prints the answer."""
