package site

import (
	"encoding/binary"
	"slices"
)

// terse returns a module's code section with the same code in fewer words,
// which are also fewer for the browser to compile and to run:
//
// The Go compiler makes of a function a loop around a table of jumps, so that
// a goroutine can be resumed behind any call. Every jump of its own goes by way
// of that loop and table. Those that go forward here go straight.
//
// Where a call may have to leave the function, it leaves on the spot, and not
// by a label whose number is another at every call.
//
// The return address that a call leaves on the stack is the function's number
// and the place in it. Here a local variable holds the first, so that two
// calls differ in the second alone.
//
// What is added to the stack pointer is added by the instruction that reads or
// writes there, if it can be, and else without a detour by 64 bits.
//
// Functions that are not made to that pattern are left as they are.
func terse(code []byte) ([]byte, error) {
	r := reader{data: code}
	count := r.uint()
	out := binary.AppendUvarint(nil, uint64(count))
	for number := range count {
		size := r.uint()
		if r.bad || r.at+int(size) > len(code) {
			return nil, errStrange
		}
		body := code[r.at : r.at+int(size)]
		r.at += int(size)
		f, err := decode(body)
		if err != nil {
			return nil, err
		}
		if f.usual() {
			f.leave()
			f.straighten()
			f.stack()
			f.address(number)
			body = f.encode()
		}
		out = append(binary.AppendUvarint(out, uint64(len(body))), body...)
	}
	if r.at != len(code) {
		return nil, errStrange
	}
	return out, nil
}

// Of a function that Go compiled: its first two local variables, and the
// global one. The names are those of cmd/internal/obj/wasm.
const (
	localPC  = 0 // where to go on
	localSP  = 1 // the stack pointer, a copy of
	globalSP = 0
	localPCF = 2 // the function's number, as in an address: ours
)

// usual tells whether f begins as what Go compiles does, and reads where to go
// on nowhere but for the table of jumps and where it is but a place to put
// something down.
func (f function) usual() bool {
	if len(f.locals) == 0 || f.locals[0] != (locals{1, i32}) || !f.reads(0, is(globalGet, globalSP), is(localSet, localSP)) {
		return false
	}
	for k, i := range f.body {
		if i.equal(is(localGet, localPC)) &&
			!(k > 1 && f.reads(k-2, is(localSet, localPC), is(i32Const, 0))) &&
			f.body[k+1].op != branchTable {
			return false
		}
	}
	return f.closed()
}

// closed tells whether every block ends in the function and every branch leads
// to a block around it: none of Go's leads to the end of the function.
func (f function) closed() bool {
	depth := int64(0)
	for k, i := range f.body {
		switch i.op {
		case block, loop, ifTrue:
			depth++
		case end:
			depth--
		case branch, branchIf, branchTable:
			if slices.Max(i.args) >= depth {
				return false
			}
		}
		if depth < 0 && k < len(f.body)-1 {
			return false
		}
	}
	return depth == -1
}

// leave makes calls leave the function on the spot. What they left by is a
// block around it all, with a 1 to give back behind its end.
func (f *function) leave() {
	last := len(f.body) - 3
	if last < 3 || f.body[2].op != block || !f.reads(last, is(end), is(i32Const, 1), is(end)) {
		return
	}
	out := slices.Clone(f.body[:2])
	depth := int64(0)
	for _, i := range f.body[3:last] {
		out = append(out, i)
		switch i.op {
		case block, loop, ifTrue:
			depth++
		case end:
			if depth--; depth < 0 {
				return // it was around a part
			}
		case branch:
			if i.args[0] == depth {
				out = append(out[:len(out)-1], is(i32Const, 1), is(giveBack))
			}
		case branchIf:
			if i.args[0] == depth {
				out = append(out[:len(out)-1], nothing(ifTrue), is(i32Const, 1), is(giveBack), is(end))
			}
		case branchTable:
			if slices.Contains(i.args, depth) {
				return
			}
		}
	}
	f.body = append(out, is(end))
}

// straighten makes jumps that go forward by way of the table go straight. The
// blocks that the loop begins with end one after another, each where the place
// begins that the table leads to by it: whoever is before that end can branch
// to it.
func (f *function) straighten() {
	at := 2
	if f.body[at].op != loop {
		return
	}
	at++
	places := 0
	for f.body[at].op == block {
		places, at = places+1, at+1
	}
	if !f.body[at].equal(is(localGet, localPC)) || f.body[at+1].op != branchTable {
		return
	}
	table := f.body[at+1].args
	if slices.Max(table) >= int64(places) {
		return
	}
	const round, inner = -1, -2 // labels that are no place
	labels := []int{round}
	for place := places - 1; place >= 0; place-- {
		labels = append(labels, place)
	}
	out := slices.Clone(f.body[:at+2])
	for k := at + 2; k < len(f.body); k++ {
		i := f.body[k]
		to := func(i instruction) int { // the label that i branches to
			if at := len(labels) - 1 - int(i.args[0]); at >= 0 {
				return labels[at]
			}
			return inner
		}
		switch i.op {
		case block, loop, ifTrue:
			labels = append(labels, inner)
		case end:
			labels = labels[:max(len(labels)-1, 0)] // none is left when the function ends
		case branchTable:
			return
		case i32Const:
			if i.args[0] < 0 || !f.reads(k+1, is(localSet, localPC)) || f.body[k+2].op != branch || to(f.body[k+2]) != round {
				break
			}
			label := slices.Index(labels, int(table[min(int(i.args[0]), len(table)-1)]))
			if label < 0 { // that place is behind us
				break
			}
			out = append(out, is(branch, int64(len(labels)-1-label)))
			k += 2
			continue
		}
		out = append(out, i)
	}
	f.body = out
}

// widest is more than any stack frame that Go compiles; two of it still add up
// to a number of 32 bits.
const widest = 1 << 30

// stack adds to the stack pointer in 32 bits, or leaves it to what reads or
// writes there.
func (f *function) stack() {
	sp := is(localGet, localSP)
	var out []instruction
	for k := 0; k < len(f.body); k++ {
		i := f.body[k]
		if i.equal(sp) && f.reads(k+1, is(i64Extend)) && f.body[k+2].op == i64Const && f.reads(k+3, is(i64Add), is(i32Wrap)) {
			if add := f.body[k+2].args[0]; add >= 0 && add < widest {
				if user := f.user(k + 5); user > 0 && f.body[user].args[1] < widest {
					f.body[user].args = []int64{f.body[user].args[0], f.body[user].args[1] + add}
					out = append(out, sp)
				} else {
					out = append(out, sp, is(i32Const, add), is(i32Add))
				}
				k += 4
				continue
			}
		}
		out = append(out, i)
	}
	f.body = out
}

// user returns which of the instructions from k on loads from or stores to the
// address that has just been put on the stack, or 0 if it is put to another
// use, or to one that does not follow in a straight line.
func (f function) user(k int) int {
	above := 0 // what lies on the address
	for ; k < len(f.body); k++ {
		takes, gives := effect(f.body[k])
		switch {
		case takes < 0:
			return 0
		case takes <= above:
			above += gives - takes
			continue
		}
		op := f.body[k].op
		if above == 0 && op >= i32Load && op <= i64Load32 || above == 1 && op >= i32Store && op <= i64Store32 {
			return k
		}
		return 0
	}
	return 0
}

// address takes the function's number out of the addresses that calls leave.
func (f *function) address(number uint32) {
	const firstFunction = 0x1000 // cmd/link/internal/wasm.funcValueOffset
	entry := int64(firstFunction+number) << 16
	ours := func(k int) bool {
		return f.body[k].op == i64Const && f.body[k].args[0]>>16<<16 == entry && f.body[k+1].equal(is(i64Store, 3, 0))
	}
	calls := 0
	for k := range f.body {
		if ours(k) {
			calls++
		}
	}
	if calls < 2 {
		return
	}
	if len(f.locals) > 1 && f.locals[1].of == i64 {
		f.locals[1].count++
	} else {
		f.locals = slices.Insert(f.locals, 1, locals{1, i64})
	}
	out := append(slices.Clone(f.body[:2]), is(i64Const, entry), is(localSet, localPCF))
	for k := 2; k < len(f.body); k++ {
		switch i := f.body[k]; {
		case ours(k):
			out = append(out, is(localGet, localPCF), is(i64Const, i.args[0]-entry), is(i64Or))
		case i.op >= localGet && i.op <= localTee && i.args[0] >= localPCF:
			out = append(out, is(i.op, i.args[0]+1))
		default:
			out = append(out, i)
		}
	}
	f.body = out
}
