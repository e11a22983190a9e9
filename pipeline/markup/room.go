package markup

import "sync"

// A page is written anew at every change, each part of it about as long as
// the last time. Room that grew for one is kept for the next: to grow it again
// would make four times as much garbage as there is markup.
var rooms struct {
	sync.Mutex
	empty [4][]byte // as many as are written into at once, the last given back last
	n     int
}

// takeRoom returns room to write into, which is nobody else's; nil where none is left.
func takeRoom() []byte {
	var b []byte
	rooms.Lock()
	if rooms.n > 0 {
		rooms.n--
		b = rooms.empty[rooms.n][:0]
	}
	rooms.Unlock()
	return b
}

// giveRoom gives room back when what was written has been copied out of it.
func giveRoom(b []byte) {
	rooms.Lock()
	if b != nil && rooms.n < len(rooms.empty) {
		rooms.empty[rooms.n] = b
		rooms.n++
	}
	rooms.Unlock()
}
