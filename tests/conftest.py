"""Standing here, this file lets every test folder import the helper modules beside it (``making``)."""
