"""The learned reader: what each sentence is for, which dish it belongs to, and what its words are."""
