"""The commands of the program, one module each, imported only when called."""
