// Package deflate packs and unpacks raw DEFLATE (RFC 1951) with a dictionary
// known to both ends, for the links that carry a design.
//
// It stands here instead of compress/flate for the size of the module that a
// phone has to fetch: compress/flate refers to fmt, and through it to os, time
// and syscall. Measured on a bare module packed by brotli: 391 kB without, 560
// kB with compress/flate. What is packed here is read by any inflater, and the
// other way round; only links are packed, so speed does not count.
package deflate

// Problem is why packed data cannot be unpacked, "" if it can.
type Problem string

// What can be wrong with packed data.
const (
	CutShort Problem = "the data ends in the middle"
	Damaged  Problem = "the data is damaged"
	TooLong  Problem = "the data unpacks to more than is allowed"
	Trailing Problem = "there is more after the end of the data"
)

// Lengths and distances come as a symbol and extra bits (RFC 1951, 3.2.5).
var (
	lengths    = [29]uint16{3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258}
	lengthBits = [29]uint8{0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0}
	codeOrder  = [19]uint8{16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}
)

// distance returns the least distance of a symbol below 30, and its extra bits.
func distance(symbol int) (least, bits int) {
	if symbol < 4 {
		return symbol + 1, 0
	}
	bits = symbol/2 - 1
	return (2+symbol&1)<<bits + 1, bits
}

const (
	longestCode = 15
	endOfBlock  = 256
)

// code is a Huffman code: how many symbols have each length, and the symbols
// in the order of their codes.
type code struct {
	count   [longestCode + 1]uint16
	symbols []uint16
}

// newCode makes the code of symbols with these lengths, 0 for unused. A code
// must be whole; only one that is empty or has a single bit may be less.
func newCode(lengths []uint8) (c code, ok bool) {
	used := 0
	for _, n := range lengths {
		if n > 0 {
			c.count[n]++
			used++
		}
	}
	left := 1
	var next [longestCode + 1]uint16
	for n := 1; n <= longestCode; n++ {
		left = left<<1 - int(c.count[n])
		if left < 0 {
			return c, false
		}
		if n < longestCode {
			next[n+1] = next[n] + c.count[n]
		}
	}
	c.symbols = make([]uint16, used)
	for symbol, n := range lengths {
		if n > 0 {
			c.symbols[next[n]] = uint16(symbol)
			next[n]++
		}
	}
	return c, left == 0 || used == 0 || used == 1 && c.count[1] == 1
}

// unpacker reads bits. After a problem it reads nothing but zeros.
type unpacker struct {
	in      []byte
	at      int
	hold    uint32
	held    int
	out     []byte // the dictionary, then what was unpacked
	most    int
	problem Problem
}

func (u *unpacker) fail(p Problem) {
	if u.problem == "" {
		u.problem = p
	}
}

func (u *unpacker) bits(n int) int {
	for u.held < n {
		if u.at == len(u.in) {
			u.fail(CutShort)
			return 0
		}
		u.hold |= uint32(u.in[u.at]) << u.held
		u.at++
		u.held += 8
	}
	v := u.hold & (1<<n - 1)
	u.hold >>= n
	u.held -= n
	return int(v)
}

// symbol reads one symbol of c, bit by bit, as codes of one length follow each
// other in the order of their symbols.
func (u *unpacker) symbol(c *code) int {
	at, first, index := 0, 0, 0
	for n := 1; n <= longestCode; n++ {
		at |= u.bits(1)
		if u.problem != "" {
			return 0
		}
		count := int(c.count[n])
		if at-first < count {
			return int(c.symbols[index+at-first])
		}
		index += count
		first = (first + count) << 1
		at <<= 1
	}
	u.fail(Damaged)
	return 0
}

// Unpack returns what was packed with dict, unless it is longer than most.
func Unpack(packed, dict []byte, most int) ([]byte, Problem) {
	u := unpacker{in: packed, out: append([]byte(nil), dict...), most: len(dict) + most}
	for last := false; !last && u.problem == ""; {
		last = u.bits(1) == 1
		switch u.bits(2) {
		case 0:
			u.stored()
		case 1:
			u.block(fixed())
		case 2:
			u.block(u.codes())
		default:
			u.fail(Damaged)
		}
	}
	if u.at < len(u.in) {
		u.fail(Trailing)
	}
	return u.out[len(dict):], u.problem
}

// stored reads a block that is not packed.
func (u *unpacker) stored() {
	u.bits(u.held) // up to the next byte: fewer than eight are held
	n := u.bits(16)
	if check := u.bits(16); u.problem == "" && n^check != 0xFFFF {
		u.fail(Damaged)
	}
	switch {
	case u.problem != "":
	case n > len(u.in)-u.at:
		u.fail(CutShort)
	case len(u.out)+n > u.most:
		u.fail(TooLong)
	default:
		u.out = append(u.out, u.in[u.at:u.at+n]...)
		u.at += n
	}
}

// fixed returns the codes that every unpacker knows.
func fixed() (literal, dist code) {
	var n [288]uint8
	for i := range n {
		switch {
		case i < 144:
			n[i] = 8
		case i < 256:
			n[i] = 9
		case i < 280:
			n[i] = 7
		default:
			n[i] = 8
		}
	}
	literal, _ = newCode(n[:])
	for i := range 32 {
		n[i] = 5
	}
	dist, _ = newCode(n[:32])
	return literal, dist
}

// codes reads the codes that a block brings along.
func (u *unpacker) codes() (literal, dist code) {
	literals, dists, codes := u.bits(5)+257, u.bits(5)+1, u.bits(4)+4
	if literals > 286 || dists > 30 {
		u.fail(Damaged)
		return literal, dist
	}
	var n [286 + 30]uint8
	for _, i := range codeOrder[:codes] {
		n[i] = uint8(u.bits(3))
	}
	c, ok := newCode(n[:len(codeOrder)])
	if !ok {
		u.fail(Damaged)
	}
	clear(n[:])
	for i := 0; i < literals+dists && u.problem == ""; {
		length, times := uint8(0), 1
		switch s := u.symbol(&c); s {
		case 16:
			if i == 0 {
				u.fail(Damaged)
				break
			}
			length, times = n[i-1], 3+u.bits(2)
		case 17:
			times = 3 + u.bits(3)
		case 18:
			times = 11 + u.bits(7)
		default:
			length = uint8(s)
		}
		if i+times > literals+dists {
			u.fail(Damaged)
			break
		}
		for range times {
			n[i] = length
			i++
		}
	}
	literal, ok = newCode(n[:literals])
	dist, fine := newCode(n[literals : literals+dists])
	if !ok || !fine {
		u.fail(Damaged)
	}
	return literal, dist
}

// block reads a block in the given codes.
func (u *unpacker) block(literal, dist code) {
	for u.problem == "" {
		s := u.symbol(&literal)
		switch {
		case u.problem != "" || s == endOfBlock:
			return
		case s < endOfBlock:
			if len(u.out) == u.most {
				u.fail(TooLong)
				return
			}
			u.out = append(u.out, byte(s))
			continue
		case s > 285:
			u.fail(Damaged)
			return
		}
		length := int(lengths[s-257]) + u.bits(int(lengthBits[s-257]))
		s = u.symbol(&dist)
		if s > 29 {
			u.fail(Damaged)
			return
		}
		least, extra := distance(s)
		back := least + u.bits(extra)
		switch {
		case u.problem != "":
			return
		case back > len(u.out):
			u.fail(Damaged)
			return
		case len(u.out)+length > u.most:
			u.fail(TooLong)
			return
		}
		for range length { // one by one, for a match may run into itself
			u.out = append(u.out, u.out[len(u.out)-back])
		}
	}
}
