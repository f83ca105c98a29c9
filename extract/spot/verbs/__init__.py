"""Cooks' verbs: tokens in; which word is one, what completes it, how it is said, what stands around it out.

Own lexicons: verbs, phrasal_verbs, verb_mishearings, action_words, equipment. Tests: ``tests/spot/test_actions.py``.
"""
