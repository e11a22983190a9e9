package site

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// Instructions of the binary format (WebAssembly core specification, 5.4) that
// are looked for or written.
const (
	block        = 0x02
	loop         = 0x03
	ifTrue       = 0x04
	end          = 0x0b
	branch       = 0x0c
	branchIf     = 0x0d
	branchTable  = 0x0e
	giveBack     = 0x0f
	call         = 0x10
	callIndirect = 0x11
	drop         = 0x1a
	choose       = 0x1b
	localGet     = 0x20
	localSet     = 0x21
	localTee     = 0x22
	globalGet    = 0x23
	globalSet    = 0x24
	i32Load      = 0x28 // the first of those that load
	i64Load32    = 0x35 // and the last
	i32Store     = 0x36 // the first of those that store
	i64Store     = 0x37
	i64Store32   = 0x3e // and the last
	memorySize   = 0x3f
	memoryGrow   = 0x40
	i32Const     = 0x41
	i64Const     = 0x42
	f32Const     = 0x43
	f64Const     = 0x44
	i32Add       = 0x6a
	i64Add       = 0x7c
	i64Or        = 0x84
	i32Wrap      = 0xa7
	i64Extend    = 0xad // i64.extend_i32_u
	prefixed     = 0xfc

	i32, i64 = 0x7f, 0x7e // types
)

// nothing is a block, a loop or an if that leaves nothing on the stack.
func nothing(op byte) instruction { return instruction{op: op, rest: []byte{0x40}} }

// instruction is one with its immediate operands, in the order in which they stand.
type instruction struct {
	op   byte
	args []int64
	rest []byte // what are no integers, as they stand
}

// is makes an instruction of an opcode and its operands.
func is(op byte, args ...int64) instruction { return instruction{op: op, args: args} }

func (i instruction) equal(j instruction) bool {
	return i.op == j.op && slices.Equal(i.args, j.args) && bytes.Equal(i.rest, j.rest)
}

// function is the body of one.
type function struct {
	locals []locals
	body   []instruction
}

// locals are some local variables of a type, by its byte.
type locals struct {
	count uint32
	of    byte
}

// decode reads a function's body as it stands in a module.
func decode(code []byte) (function, error) {
	var f function
	r := reader{data: code}
	for range min(r.uint(), uint32(len(code))) {
		f.locals = append(f.locals, locals{r.uint(), r.byte()})
	}
	f.body = make([]instruction, 0, len(code)/2)
	for r.at < len(code) && !r.bad {
		i := instruction{op: r.byte()}
		args, rest := 0, 0
		switch op := i.op; {
		case op == block || op == loop || op == ifTrue || op == memorySize || op == memoryGrow:
			rest = 1
		case op == branch || op == branchIf || op == call || op >= localGet && op <= globalSet:
			args = 1
		case op == callIndirect || op >= i32Load && op <= i64Store32:
			args = 2
		case op == branchTable:
			n := r.uint()
			if int(n) > len(code) {
				return f, errStrange
			}
			args = int(n) + 1
		case op == i32Const || op == i64Const:
			i.args = []int64{r.signed()}
		case op == f32Const:
			rest = 4
		case op == f64Const:
			rest = 8
		case op == prefixed:
			i.args = []int64{int64(r.uint())}
			switch what := i.args[0]; {
			case what == 10: // memory.copy
				rest = 2
			case what == 11: // memory.fill
				rest = 1
			case what > 7: // not one that rounds a number
				return f, errStrange
			}
		case op <= 0x05, op == end, op == giveBack, op == drop, op == choose, op >= 0x45 && op <= 0xc4:
		default:
			return f, errStrange
		}
		for range args {
			i.args = append(i.args, int64(r.uint()))
		}
		if r.at+rest > len(code) {
			return f, errStrange
		}
		i.rest = code[r.at : r.at+rest]
		r.at += rest
		f.body = append(f.body, i)
	}
	if r.bad || len(f.body) == 0 || f.body[len(f.body)-1].op != end {
		return f, errStrange
	}
	return f, nil
}

// encode writes it as it stands in a module.
func (f function) encode() []byte {
	out := binary.AppendUvarint(nil, uint64(len(f.locals)))
	for _, l := range f.locals {
		out = append(binary.AppendUvarint(out, uint64(l.count)), l.of)
	}
	for _, i := range f.body {
		out = append(out, i.op)
		if i.op == branchTable {
			out = binary.AppendUvarint(out, uint64(len(i.args)-1))
		}
		for _, a := range i.args {
			if i.op == i32Const || i.op == i64Const {
				out = appendSigned(out, a)
			} else {
				out = binary.AppendUvarint(out, uint64(a))
			}
		}
		out = append(out, i.rest...)
	}
	return out
}

// reads tells whether these instructions stand at k.
func (f function) reads(k int, these ...instruction) bool {
	return len(f.body)-k >= len(these) && slices.EqualFunc(f.body[k:k+len(these)], these, instruction.equal)
}

// effect returns how many values i takes from the stack and puts on it, or -1
// of what is not looked into.
func effect(i instruction) (takes, gives int) {
	switch op := i.op; {
	case op == localGet || op == globalGet || op >= i32Const && op <= f64Const:
		return 0, 1
	case op == localSet || op == globalSet || op == drop:
		return 1, 0
	case op >= i32Store && op <= i64Store32:
		return 2, 0
	case op == localTee,
		op >= i32Load && op <= i64Load32,
		op == 0x45 || op == 0x50,    // eqz
		op >= 0x67 && op <= 0x69,    // bits of i32
		op >= 0x79 && op <= 0x7b,    // bits of i64
		op >= 0x8b && op <= 0x91,    // f32.abs to f32.sqrt
		op >= 0x99 && op <= 0x9f,    // f64.abs to f64.sqrt
		op >= i32Wrap && op <= 0xc4: // from one type to another
		return 1, 1
	case op >= 0x46 && op <= 0xa6:
		return 2, 1
	}
	return -1, 0
}
