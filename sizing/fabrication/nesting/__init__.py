"""How the pieces of many cages are laid on bars and sheets so that little is left over."""
