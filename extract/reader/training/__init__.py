"""Training the reader from annotated talks; not part of the wheel."""
