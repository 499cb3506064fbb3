"""What the workshop knows. Pure: no clock, no chance, no network, no files but its own data."""
