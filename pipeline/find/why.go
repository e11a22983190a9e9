package find

func (f *finder) why(fall float64) (why string, ways []string) { return "none", nil }
