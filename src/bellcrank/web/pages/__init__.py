"""The pages: each reads what was sent, calls one shop function, builds one view and renders it."""
