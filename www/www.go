// Package www holds the files of the page that are served as they stand.
// The rest of the page is computed: see the packages view and app. The module
// for the browser must not import this package, or it would carry them too.
package www

import "embed"

// Static is the folder static: the style sheet, the script and whatever else
// the page loads.
//
//go:embed static
var Static embed.FS
