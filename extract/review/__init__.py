"""The review page: a draft beside its recording, corrected by a person, served from this machine alone."""
