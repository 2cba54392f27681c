"""Every read of the workshop that is worth a name."""
