"""Papers: what the bench works from, what the customer keeps, what sticks on the parcel."""
