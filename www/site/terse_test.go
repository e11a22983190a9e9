package site

import (
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// made returns a function of the body as Go's compiler begins it, with an i64
// and a f64 of its own behind the copy of the stack pointer.
func made(body ...instruction) function {
	return function{
		locals: []locals{{1, i32}, {1, i64}, {1, 0x7c}},
		body:   append([]instruction{is(globalGet, 0), is(localSet, 1)}, body...),
	}
}

// section returns the code section of one function.
func section(f function) []byte {
	body := f.encode()
	return append(binary.AppendUvarint([]byte{1}, uint64(len(body))), body...)
}

// What is expected follows from what the instructions do (WebAssembly core
// specification, 4.4), worked out by hand.

func TestJumpsForwardGoStraight(t *testing.T) {
	t.Parallel()
	jump := func(place, away int64) []instruction {
		return []instruction{is(i32Const, place), is(localSet, localPC), is(branch, away)}
	}
	code := func(bodies ...[]instruction) (all []instruction) {
		for _, b := range bodies {
			all = append(all, b...)
		}
		return all
	}
	head := []instruction{nothing(block), nothing(block), nothing(block), is(localGet, localPC), is(branchTable, 0, 1, 1, 2), is(end)}
	var (
		condition = []instruction{is(localGet, 2), is(i32Wrap), nothing(ifTrue)}
		ends      = []instruction{is(end)}
		left      = []instruction{is(i32Const, 0), is(giveBack)}
	)
	// Two jumps to the last place, one of them on a condition, one to the next:
	// numbers 3, 3 and 2 of the table are the third place, the third, the second.
	f := made(code([]instruction{nothing(loop)}, head,
		condition, jump(3, 3), ends, jump(2, 2), ends,
		jump(3, 1), ends,
		left, ends, []instruction{is(0x00), is(end)})...)
	f.straighten()
	assert.Equal(t, made(code([]instruction{nothing(loop)}, head,
		condition, []instruction{is(branch, 2)}, ends, []instruction{is(branch, 0)}, ends,
		[]instruction{is(branch, 0)}, ends,
		left, ends, []instruction{is(0x00), is(end)})...), f)

	// One that goes back to the first place stays.
	f = made(code([]instruction{nothing(loop)}, head,
		condition, jump(1, 3), ends, ends,
		ends,
		jump(0, 0), ends, []instruction{is(0x00), is(end)})...)
	f.straighten()
	assert.Equal(t, made(code([]instruction{nothing(loop)}, head,
		condition, []instruction{is(branch, 1)}, ends, ends,
		ends,
		jump(0, 0), ends, []instruction{is(0x00), is(end)})...), f)
}

func TestCallsLeaveOnTheSpot(t *testing.T) {
	t.Parallel()
	f := made(nothing(block), nothing(block), is(call, 7), is(branchIf, 1), is(end), is(call, 8), is(branchIf, 0), is(0x00), is(end), is(i32Const, 1), is(end))
	f.leave()
	assert.Equal(t, made(
		nothing(block), is(call, 7), nothing(ifTrue), is(i32Const, 1), is(giveBack), is(end), is(end),
		is(call, 8), nothing(ifTrue), is(i32Const, 1), is(giveBack), is(end), is(0x00), is(end)), f)
}

func TestStackPointerIsAddedToWhereItIsUsed(t *testing.T) {
	t.Parallel()
	sp := is(localGet, 1)
	address := func(add int64) []instruction {
		return []instruction{sp, is(i64Extend), is(i64Const, add), is(i64Add), is(i32Wrap)}
	}
	// A store, what it stores read by way of another address; an address that is passed on.
	body := append(address(8), address(24)...)
	body = append(body, is(0x29, 3, 16), is(i64Store, 3, 4))
	body = append(append(body, address(40)...), is(localGet, 2), is(i32Wrap), is(call, 3))
	f := made(append(body, is(i32Const, 0), is(giveBack), is(end))...)
	f.stack()
	assert.Equal(t, made(
		sp, sp, is(0x29, 3, 40), is(i64Store, 3, 12),
		sp, is(i32Const, 40), is(i32Add), is(localGet, 2), is(i32Wrap), is(call, 3),
		is(i32Const, 0), is(giveBack), is(end)), f)
}

func TestReturnAddressIsPutTogether(t *testing.T) {
	t.Parallel()
	// Function 5, at 0x1005: places 1 and 2 of it, and a number that is no place of it.
	store := is(i64Store, 3, 0)
	sp := is(localGet, 1)
	f := made(sp, is(i64Const, 0x10050001), store, sp, is(i64Const, 0x10050002), store, sp, is(i64Const, 0x10060001), store, is(localGet, 2), is(drop), is(end))
	f.address(5)
	after := made(is(i64Const, 0x10050000), is(localSet, 2),
		sp, is(localGet, 2), is(i64Const, 1), is(i64Or), store,
		sp, is(localGet, 2), is(i64Const, 2), is(i64Or), store,
		sp, is(i64Const, 0x10060001), store, is(localGet, 3), is(drop), is(end))
	after.locals[1].count++
	assert.Equal(t, after, f)
}

// A function that reads where to go on for a purpose of its own is left alone,
// and so is one with a branch to its own end, whose label would be another, or
// with blocks that do not end in it, or a frame that is none.
func TestStrangeFunctionsStay(t *testing.T) {
	t.Parallel()
	for _, f := range []function{
		made(nothing(block), is(call, 7), is(branchIf, 1), is(0x00), is(end), is(i32Const, 1), is(end)),
		made(nothing(block), is(call, 7), is(branchIf, 0), is(end), is(end), is(i32Const, 1), is(end)),
		made(nothing(block), is(call, 7), is(branchIf, 0), is(i32Const, 1), is(end)),
		made(nothing(block), is(end), nothing(block), is(branch, 0), is(end), is(i32Const, 1), is(end)),
		made(is(localGet, 1), is(i64Extend), is(i64Const, widest), is(i64Add), is(i32Wrap), is(drop), is(end)),
		made(is(localGet, localPC), is(drop), is(i32Const, 0), is(end)),
		{locals: []locals{{1, i32}}, body: []instruction{is(i64Extend), is(i32Wrap), is(end)}},
	} {
		out, err := terse(section(f))
		require.NoError(t, err)
		assert.Equal(t, section(f), out)
	}
}

func FuzzTerse(f *testing.F) {
	f.Add(section(made(nothing(loop), nothing(block), is(localGet, 0), is(branchTable, 0, 0), is(end), is(i32Const, 0), is(localSet, 0), is(branch, 0), is(end), is(end))))
	f.Add(section(made(nothing(block), is(call, 1), is(branchIf, 0), is(end), is(i32Const, 1), is(end))))
	f.Add(section(made(is(localGet, 1), is(i64Extend), is(i64Const, -8), is(i64Add), is(i32Wrap), is(f64Const), is(prefixed, 10), is(end))))
	f.Fuzz(func(t *testing.T, code []byte) {
		if out, err := terse(code); err == nil {
			_, err = terse(out)
			assert.NoError(t, err, "what was written is read")
		}
	})
}
