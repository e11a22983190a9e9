package view

import "strings"

// FileName is what the file of a design with that title is called.
func FileName(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() > 60 {
			break
		}
	}
	name := strings.Trim(b.String(), "-")
	if name == "" {
		name = "plant"
	}
	return name + ".drawoff.json"
}
