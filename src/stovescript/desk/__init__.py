"""The review page: the talk beside its draft in a browser on this machine, to be checked, corrected and answered."""
