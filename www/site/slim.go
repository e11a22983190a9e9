package site

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"regexp"
	"slices"
	"strings"
)

// Slim returns module, as the Go linker wrote it, a quarter lighter on its way
// to the browser, and quicker there: its code in fewer words, and its memory
// without what nobody reads. The linker has no flag for either. What it reads
// is how Go 1.26 compiles and links; a module that was not made by that, or
// does not look like it, is refused.
func Slim(module []byte) ([]byte, error) {
	if len(module) < headerSize {
		return nil, errStrange
	}
	out := bytes.Clone(module[:headerSize])
	r := reader{data: module, at: headerSize}
	whole, known := false, false
	for r.at < len(module) {
		id, size := r.byte(), int(r.uint())
		if r.bad || size > len(module)-r.at {
			return nil, errStrange
		}
		section := module[r.at : r.at+size]
		r.at += size
		var err error
		switch id {
		case customSection:
			known = known || compiler.Match(section)
		case codeSection:
			section, err = terse(section)
		case dataSection:
			section, err = quiet(section)
			whole = true
		}
		if err != nil {
			return nil, err
		}
		out = append(binary.AppendUvarint(append(out, id), uint64(len(section))), section...)
	}
	if !whole || !known {
		return nil, errStrange
	}
	return out, nil
}

// quiet returns a module's data section, its memory as it starts, with zeros
// for what only the printing of a stack trace reads: the names of functions,
// the tables that lead from an instruction to its file and line, and whatever
// points to them; and where a goroutine could
// be stopped between two calls, since none ever is in a browser. Zeros pack to
// nothing. A trace in the console is one of addresses then; what a panic says
// is what it said.
//
// The memory is written in a few pieces. The linker leaves every run of eight
// zeros out, in tens of thousands of segments whose addresses pack worse than
// the zeros would.
//
// Of the runtime's own functions the runtime asks whether they are its own, so
// they share one name that says it. Those of generated wrappers stay, which a
// panic splits, and those of package reflect, by which it knows its stubs.
func quiet(section []byte) ([]byte, error) {
	segments, err := segmentsOf(section)
	if err != nil {
		return nil, err
	}
	t, err := findTable(segments)
	if err != nil {
		return nil, err
	}
	t.untrace()
	t.coarsen()
	return t.section(segments), nil
}

// compiler is what a module says of who made it, if that is a release of Go
// 1.26: the Go whose compiler, linker and runtime were read for all this. What
// another makes may look the same and mean something else.
var compiler = regexp.MustCompile(`^\tproducers(?s:.*)\x0eGo cmd/compile(?s:.)go1\.26\.[0-9]`)

// errStrange is why a module is refused.
var errStrange = errors.New("the module is not laid out as this program knows Go modules to be: its Go may be newer")

// segment is a stretch of a module's memory as it starts.
type segment struct {
	at   uint32
	data []byte // in the module
}

// Bytes of the binary format (WebAssembly core specification, chapter 5).
const (
	headerSize    = 8
	customSection = 0
	codeSection   = 10
	dataSection   = 11
)

// segmentsOf returns the active segments of a data section, in the order of
// their addresses.
func segmentsOf(section []byte) ([]segment, error) {
	r := reader{data: section}
	segments := make([]segment, 0, min(r.uint(), uint32(len(section))))
	for range cap(segments) {
		if r.uint() != 0 || r.byte() != i32Const {
			return nil, errStrange
		}
		at := r.uint()
		if r.byte() != end {
			return nil, errStrange
		}
		size := int(r.uint())
		if r.bad || size > len(section)-r.at {
			return nil, errStrange
		}
		segments = append(segments, segment{at, section[r.at : r.at+size]})
		r.at += size
	}
	if len(segments) == 0 {
		return nil, errStrange
	}
	slices.SortFunc(segments, func(a, b segment) int { return cmp.Compare(a.at, b.at) })
	return segments, nil
}

// reader reads numbers as WebAssembly writes them.
type reader struct {
	data []byte
	at   int
	bad  bool
}

func (r *reader) byte() byte {
	if r.at >= len(r.data) {
		r.bad = true
		return 0
	}
	r.at++
	return r.data[r.at-1]
}

// signed reads signed LEB128, in which the highest bit of the last seven is the sign.
func (r *reader) signed() int64 {
	var n int64
	for shift := 0; shift < 70; shift += 7 {
		b := r.byte()
		n |= int64(b&0x7f) << shift
		if b < 0x80 {
			if b&0x40 != 0 && shift+7 < 64 {
				n |= -1 << (shift + 7)
			}
			return n
		}
	}
	r.bad = true
	return 0
}

// uint reads LEB128. Signed ones that are not negative read the same.
func (r *reader) uint() uint32 {
	var n uint32
	for shift := 0; shift < 35; shift += 7 {
		b := r.byte()
		n |= uint32(b&0x7f) << shift
		if b < 0x80 {
			return n
		}
	}
	r.bad = true
	return 0
}

// table is the table of functions in a module's memory, with the addresses of
// its parts.
type table struct {
	memory                          []byte
	count                           uint32
	names, units, values, functions uint32
	search                          uint32
}

func findTable(segments []segment) (table, error) {
	last := segments[len(segments)-1]
	t := table{memory: make([]byte, last.at+uint32(len(last.data)))}
	for _, s := range segments {
		if int(s.at)+len(s.data) > len(t.memory) {
			return t, errStrange
		}
		copy(t.memory[s.at:], s.data)
	}
	magic := []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8} // Go 1.20, instructions of 1 byte, pointers of 8
	at := bytes.Index(t.memory, magic)
	if at < 0 || bytes.Contains(t.memory[at+1:], magic) {
		return t, errStrange
	}
	part := func(i uint32) uint32 { return t.word(uint32(at) + 8 + 8*i) }
	start := uint32(at)
	t.count, t.names, t.units, t.values, t.functions = part(0), start+part(3), start+part(4), start+part(6), start+part(7)
	if size := uint32(len(t.memory)); t.names >= t.units || t.units >= t.values || t.values >= t.functions || t.functions+8*t.count >= size {
		return t, errStrange
	}
	// What runtime.moduledata says, a word each.
	pair := binary.LittleEndian.AppendUint64(nil, uint64(at))
	pair = binary.LittleEndian.AppendUint64(pair, uint64(t.names))
	data := bytes.Index(t.memory, pair)
	if data < 0 || data+8*48 > len(t.memory) {
		return t, errStrange
	}
	part = func(i uint32) uint32 { return t.word(uint32(data) + 8*i) }
	t.search = part(19)
	for i := range t.buckets() {
		at := t.search + bucketSize*i
		if int(at+bucketSize) > len(t.memory) || i/bucketsEach-t.word(at) >= coarse {
			return t, errStrange
		}
	}
	return t, nil
}

// A function is looked for by where it is, in the table of runtime.findfunc:
// its number, or that of one before it from which to go on.
const (
	bucketSize  = 20 // runtime.findfuncbucket
	bucketsEach = 16 // 65536 places to a function, and abi.FuncTabBucketSize to a bucket
	coarse      = 16 // how many functions have one number here
)

// buckets returns how many there are. The last function need not have all of its own.
func (t *table) buckets() uint32 { return bucketsEach*(t.count-1) + 1 }

// coarsen lets the search for a function begin with the first of sixteen. That
// is a few steps more where a stack is walked, and a number that stands many
// times weighs little.
func (t *table) coarsen() {
	for i := range t.buckets() {
		at := t.search + bucketSize*i
		t.put(at, t.word(at)/coarse*coarse)
	}
}

// untrace sets to zero what only a stack trace reads.
func (t *table) untrace() {
	const (
		runtimes = "runtime."
		wrapper  = 23 // abi.FuncIDWrapper
	)
	var shared uint32 // where the runtime's functions have their name, once there is one
	kept := make(map[uint32]string)
	keep, drop := map[uint32]bool{0: true}, map[uint32]bool{}
	for i := range t.count {
		f := t.functions + t.word(t.functions+8*i+4)
		name := t.word(f + 4)
		switch text := t.text(t.names + name); {
		case t.memory[f+40] == wrapper || strings.HasPrefix(text, "reflect."):
			kept[name] = text
		case strings.HasPrefix(text, runtimes):
			if shared == 0 {
				shared = name
			}
			t.put(f+4, shared)
		default:
			t.put(f+4, 0)
		}
		keep[t.word(f+16)] = true // stack sizes
		files, lines, unit, line := f+20, f+24, f+32, f+36
		drop[t.word(files)], drop[t.word(lines)] = true, true
		for _, at := range []uint32{files, lines, unit, line} {
			t.put(at, 0)
		}
		values, data := f+44, f+44+4*t.word(f+28)
		for k, at := 0, values; at < data; k, at = k+1, at+4 {
			if k == 0 { // abi.PCDATA_UnsafePoint
				drop[t.word(at)] = true
				t.put(at, 0)
				continue
			}
			keep[t.word(at)] = true // what the collector reads, and recover
		}
	}
	for offset := range drop {
		if !keep[offset] { // tables that are alike are one
			t.clear(t.values+offset, t.length(t.values+offset))
		}
	}
	if _, wrapped := kept[shared]; shared != 0 && !wrapped {
		kept[shared] = runtimes
	}
	t.clear(t.names, t.values-t.names) // and the names of files
	for name, text := range kept {
		copy(t.memory[t.names+name:], text)
	}
}

func (t *table) put(at, n uint32) { binary.LittleEndian.PutUint32(t.memory[at:], n) }

func (t *table) word(at uint32) uint32 { return binary.LittleEndian.Uint32(t.memory[at:]) }

func (t *table) text(at uint32) string {
	return string(t.memory[at : at+uint32(bytes.IndexByte(t.memory[at:], 0))])
}

func (t *table) clear(at, size uint32) { clear(t.memory[at : at+size]) }

// length returns how long the table of values at is: pairs of numbers, up to
// the first pair but one that starts with 0.
func (t *table) length(at uint32) uint32 {
	r := reader{data: t.memory, at: int(at)}
	for first := true; ; first = false {
		if change := r.uint(); change == 0 && !first || r.bad {
			return uint32(r.at) - at
		}
		r.uint()
	}
}

// section writes the data section that gives the memory: pieces of it where
// the segments are, those less than a page apart in one.
func (t *table) section(segments []segment) []byte {
	const page = 4096
	type piece struct{ from, to uint32 }
	var pieces []piece
	for _, s := range segments {
		from, to := s.at, s.at+uint32(len(s.data))
		if n := len(pieces); n > 0 && from < pieces[n-1].to+page {
			pieces[n-1].to = to
			continue
		}
		pieces = append(pieces, piece{from, to})
	}
	out := binary.AppendUvarint(nil, uint64(len(pieces)))
	for _, p := range pieces {
		out = append(out, 0, i32Const)
		out = appendSigned(out, int64(p.from))
		out = append(out, end)
		out = binary.AppendUvarint(out, uint64(p.to-p.from))
		out = append(out, t.memory[p.from:p.to]...)
	}
	return out
}

// appendSigned appends n as signed LEB128.
func appendSigned(out []byte, n int64) []byte {
	for n >= 0x40 || n < -0x40 {
		out = append(out, byte(n)|0x80)
		n >>= 7
	}
	return append(out, byte(n)&0x7f)
}
