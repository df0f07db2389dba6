"""Values from outside, one row each, and the functions that must give them."""
