"""How the cage is made: plain values for the bench."""
