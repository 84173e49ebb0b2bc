"""The addresses, a file for each group of pages; an endpoint reads a command, calls a use case, maps the answer."""
