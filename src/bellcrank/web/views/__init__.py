"""One frozen view a page: everything a template shows, already in words and shop units."""
