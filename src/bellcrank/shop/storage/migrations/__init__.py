"""The steps from each older form of the shop's file to the present one; imported only when a file is older."""
