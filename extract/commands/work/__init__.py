"""The work behind the commands: files found, drafted, written and kept; text printed; progress shown.

A command takes options and makes one call into here or into a stage. Tests: ``tests/commands``.
"""
