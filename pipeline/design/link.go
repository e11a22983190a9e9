package design

import (
	"encoding/base64"
	"strconv"
	"strings"

	"drawoff/pipeline/deflate"
)

// linkVersion leads every link. A reader of each version stays for ever.
const linkVersion = "1"

// WriteLink returns the fragment for d, without "#": "1." and then base64url
// without padding of raw DEFLATE over compact JSON, with dict1 known to both
// ends. The demo takes about 300 characters; a design of hundreds of pieces
// with long names may pass MaxLink, and is then to be sent as a file.
func WriteLink(d Design) string {
	return linkVersion + "." + base64.RawURLEncoding.EncodeToString(deflate.Pack(compact(&d), []byte(dict1)))
}

// ReadLink reads the fragment of a link, with or without its "#" and what
// stands before it. Unknown members are left out, so that a link from a
// later Drawoff still opens. The design is validated. With faults, the
// design holds what could be read.
func ReadLink(fragment string) (Design, Faults) {
	data, f := unpack(fragment)
	if f != nil {
		f.Given = shorten(fragment)
		return Design{}, Faults{*f}
	}
	var d Design
	dec := decode(&d, string(data), false, nil)
	if dec.broken && len(dec.faults) == 1 && dec.faults[0].Field == "" {
		return Design{}, Faults{{Given: shorten(fragment), What: "the link holds something other than a design", Hint: copyAgain}}
	}
	return d, dec.complete(d)
}

// LinkBeyond names members of the design in a link that this Drawoff does not
// know, the first few. A newer one wrote them; ReadLink leaves them out, and
// whoever opens the link is to be told. It names none of a link that cannot be
// read.
func LinkBeyond(fragment string) []string {
	data, f := unpack(fragment)
	if f != nil {
		return nil
	}
	var d Design
	return decode(&d, string(data), false, nil).passed
}

const (
	copyAgain = "copy the whole link again from where it came"
	bringUp   = "reload the page to bring it up to date, or ask for the design as a file"
	copyIt    = "what was copied is a shortened picture of the link: press it for long, or right-click it, and copy the link itself"
)

// unpack returns the JSON in a link, or the fault of the link as such.
func unpack(s string) ([]byte, *Fault) {
	s = strings.TrimSpace(s)
	if i := strings.LastIndexByte(s, '#'); i >= 0 {
		s = s[i+1:]
	}
	for range 2 { // messengers encode a link, and some encode it again
		if strings.IndexByte(s, '%') >= 0 {
			s = unescape(s)
		}
	}
	s = strings.TrimPrefix(s, "#") // it may have been encoded too
	if s == "" {
		return nil, &Fault{What: "the link is empty", Hint: copyAgain}
	}
	version, body, dot := strings.Cut(s, ".")
	switch {
	case !isVersion(version):
		return nil, &Fault{What: "the link is not a Drawoff link", Hint: "a link's own part begins with 1. after the #"}
	case version != linkVersion && dot: // however long: a newer one may hold more
		return nil, &Fault{What: "the link was made by a newer Drawoff", Hint: bringUp}
	case len(s) > MaxLink:
		return nil, &Fault{What: "the link is longer than " + strconv.Itoa(MaxLink) + " characters", Hint: "send the design as a file"}
	case body == "":
		return nil, &Fault{What: "the link is cut short", Hint: copyAgain}
	}
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	if rest := strings.TrimLeft(body, alphabet); strings.HasPrefix(rest, "…") || strings.HasPrefix(rest, "...") {
		return nil, &Fault{What: "the link is cut short, with dots for what is missing", Hint: copyIt}
	} else if rest != "" {
		return nil, &Fault{What: "the link has characters that do not belong in it: " + shorten(rest), Hint: "delete them, or " + copyAgain}
	}
	packed, err := base64.RawURLEncoding.Strict().DecodeString(body)
	if err == nil {
		return inflate(packed)
	}
	// Letters are missing or too many. They are too many where the link is
	// whole without the last of them.
	what := "the link is cut short"
	for n := len(body) - 1; n >= max(1, len(body)-3); n-- {
		if packed, err = base64.RawURLEncoding.Strict().DecodeString(body[:n]); err == nil {
			if _, problem := deflate.Unpack(packed, []byte(dict1), maxInflated); problem == "" || problem == deflate.Trailing {
				what = addedAtEnd
			}
			break
		}
	}
	return nil, &Fault{What: what, Hint: copyAgain}
}

const addedAtEnd = "the link has characters added at its end"

func inflate(packed []byte) ([]byte, *Fault) {
	data, problem := deflate.Unpack(packed, []byte(dict1), maxInflated)
	what := ""
	switch problem {
	case "":
		return data, nil
	case deflate.CutShort:
		what = "the link is cut short"
	case deflate.TooLong:
		what = "the link holds more than a design can"
	case deflate.Trailing:
		what = addedAtEnd
	default:
		what = "the link is damaged"
	}
	return nil, &Fault{What: what, Hint: copyAgain}
}

// isVersion reports whether s is a version number as links carry it.
func isVersion(s string) bool {
	return s != "" && len(s) <= 4 && s[0] != '0' && strings.Trim(s, "0123456789") == ""
}

// unescape undoes percent encoding; what is not an escape stays as it is.
func unescape(s string) string {
	b := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		if s[i] == '%' && i+2 < len(s) {
			hi, okHi := hex(s[i+1])
			lo, okLo := hex(s[i+2])
			if okHi && okLo {
				b = append(b, hi<<4|lo)
				i += 2
				continue
			}
		}
		b = append(b, s[i])
	}
	return string(b)
}

func hex(c byte) (byte, bool) {
	switch {
	case c >= '0' && c <= '9':
		return c - '0', true
	case c >= 'a' && c <= 'f':
		return c - 'a' + 10, true
	case c >= 'A' && c <= 'F':
		return c - 'A' + 10, true
	}
	return 0, false
}
