package order

// instead says why a part is no stock size, and what else would do.
func instead(slug string) (odd string, other []string) { return "", nil }
