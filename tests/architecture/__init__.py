"""What the code must look like, whoever writes it."""
