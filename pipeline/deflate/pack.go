package deflate

import "math/bits"

const (
	window   = 32 << 10 // how far back a match may lie
	shortest = 3
	longest  = 258
	tries    = 256 // candidates that are looked at for a match
)

// packer writes bits.
type packer struct {
	out  []byte
	hold uint32
	held int
}

func (p *packer) bits(v, n int) {
	p.hold |= uint32(v) << p.held
	p.held += n
	for p.held >= 8 {
		p.out = append(p.out, byte(p.hold))
		p.hold >>= 8
		p.held -= 8
	}
}

// code writes a Huffman code, whose first bit is its highest.
func (p *packer) code(v, n int) {
	p.bits(int(bits.Reverse16(uint16(v))>>(16-n)), n)
}

// literal writes a symbol in the fixed code.
func (p *packer) literal(s int) {
	switch {
	case s < 144:
		p.code(0x30+s, 8)
	case s < 256:
		p.code(0x190+s-144, 9)
	case s < 280:
		p.code(s-256, 7)
	default:
		p.code(0xC0+s-280, 8)
	}
}

func (p *packer) match(length, back int) {
	s := len(lengths) - 1
	for int(lengths[s]) > length {
		s--
	}
	p.literal(257 + s)
	p.bits(length-int(lengths[s]), int(lengthBits[s]))
	s = 29
	least, extra := distance(s)
	for least > back {
		s--
		least, extra = distance(s)
	}
	p.code(s, 5)
	p.bits(back-least, extra)
}

// finder finds earlier places that read the same.
type finder struct {
	text   []byte
	latest map[[shortest]byte]int // where three bytes stood last
	before []int                  // where those at a place stood before it, -1 for nowhere
	noted  int
}

// note takes up the places before at.
func (f *finder) note(at int) {
	for ; f.noted < at && f.noted+shortest <= len(f.text); f.noted++ {
		key := [shortest]byte(f.text[f.noted:])
		last, ok := f.latest[key]
		if !ok {
			last = -1
		}
		f.before[f.noted] = last
		f.latest[key] = f.noted
	}
}

// longest returns the longest match for what stands at a place, the nearest of several.
func (f *finder) longest(at int) (length, back int) {
	if at+shortest > len(f.text) {
		return 0, 0
	}
	f.note(at)
	from, ok := f.latest[[shortest]byte(f.text[at:])]
	if !ok {
		from = -1
	}
	most := min(longest, len(f.text)-at)
	for n := 0; n < tries && from >= 0 && at-from <= window; n++ {
		same := 0
		for same < most && f.text[from+same] == f.text[at+same] {
			same++
		}
		if same > length {
			length, back = same, at-from
		}
		from = f.before[from]
	}
	return length, back
}

// Pack returns data as one block in the fixed code. A design is so short, and
// with its dictionary so much of it matches, that a code of its own would
// cost more than it saves.
func Pack(data, dict []byte) []byte {
	dict = dict[max(0, len(dict)-window):]
	text := append(append(make([]byte, 0, len(dict)+len(data)), dict...), data...)
	f := finder{text: text, latest: make(map[[shortest]byte]int, len(text)), before: make([]int, len(text))}
	var p packer
	p.bits(1, 1) // the last block
	p.bits(1, 2) // in the fixed code
	at := len(dict)
	length, back := f.longest(at)
	for at < len(text) {
		// A longer match one byte on is worth a literal.
		next, nextBack := f.longest(at + 1)
		if length < shortest || next > length {
			p.literal(int(text[at]))
			at++
			length, back = next, nextBack
			continue
		}
		p.match(length, back)
		at += length
		length, back = f.longest(at)
	}
	p.literal(endOfBlock)
	p.bits(0, (8-p.held)%8)
	return p.out
}
