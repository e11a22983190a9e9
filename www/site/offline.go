package site

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
)

// Offline is the name of the script that keeps the site for use without a
// network. A browser looks for a newer one under the same address, so it
// alone of the scripts carries no hash.
const Offline = "offline.js"

// offline returns body, the script, with what it is to keep: all of files,
// the page under the address of its folder too, where it is opened.
func offline(body []byte, files []File) (File, error) {
	sum := sha256.New()
	sum.Write(body)
	names := []string{"./"}
	for _, f := range files {
		names = append(names, f.Name)
		sum.Write([]byte(f.Name))
		sum.Write(f.Body)
	}
	unit, err := json.Marshal(map[string]any{"version": hex.EncodeToString(sum.Sum(nil)[:5]), "files": names})
	return File{Offline, append([]byte("const unit = "+string(unit)+";\n"), body...)}, err
}

// manifest returns what a browser reads to install the page as a program.
func manifest(hashed map[string]string) ([]byte, error) {
	type icon struct {
		Src     string `json:"src"`
		Sizes   string `json:"sizes"`
		Type    string `json:"type"`
		Purpose string `json:"purpose"`
	}
	const whole = "any maskable" // the picture keeps clear of the edge that a round mask cuts off
	return json.Marshal(map[string]any{
		"name": "Drawoff", "short_name": "Drawoff", "lang": "en-GB",
		"description": "From one description of a tank and its line: whether it fits, mates, flows, drains and stands.",
		"id":          "./", "start_url": "./", "scope": "./", "display": "standalone",
		"background_color": "#faf8f3", "theme_color": "#faf8f3",
		"icons": []icon{
			{hashed["icon.svg"], "any", "image/svg+xml", whole},
			{hashed["icon-192.png"], "192x192", "image/png", whole},
			{hashed["icon-512.png"], "512x512", "image/png", whole},
		},
	})
}
